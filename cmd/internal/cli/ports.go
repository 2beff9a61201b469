package cli

import (
	"cmp"
	"io"
	"slices"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/host"
	"seamrail/export/report"
)

// PortsOptions is what the ports command was asked.
type PortsOptions struct {
	Streams command.Streams
	List    func() ([]host.PortFacts, error) // where the ports come from
}

// NewCmdPorts returns the ports command. A nil run means the real one.
func NewCmdPorts(s command.Streams, run func(*PortsOptions) error) *cobra.Command {
	o := &PortsOptions{Streams: s, List: host.Ports}
	return &cobra.Command{
		Use:   "ports",
		Short: "List the serial ports and what is known of each",
		Long: `List the serial ports of this computer, with what the system knows of each: its
USB numbers and the serial number of what is plugged in. None of them is opened,
so nothing moves and no board is reset.`,
		Example: "  seamrail ports",
		Args:    command.Nothing,
		RunE:    func(*cobra.Command, []string) error { return command.Or(run, portsRun)(o) },
	}
}

const noPorts = `There is no serial port here. Is the rig plugged in and switched on? Some boards
need a driver before the system shows them. "seamrail drive --virtual" runs a
shot on a rig made of software.
`

func portsRun(o *PortsOptions) error {
	ports, err := o.List()
	if err != nil {
		return exit.Failed("the system does not tell its serial ports: %w", err)
	}
	if len(ports) == 0 {
		_, err := io.WriteString(o.Streams.Out, noPorts)
		return err
	}
	slices.SortFunc(ports, func(a, b host.PortFacts) int { return cmp.Compare(a.Name, b.Name) })
	t := report.Table{Columns: []report.Column{{Head: "PORT"}, {Head: "USB"}, {Head: "SERIAL NUMBER"}, {Head: "WHAT IT SAYS IT IS"}}}
	for _, p := range ports {
		t.Rows = append(t.Rows, report.Row{Cells: []string{p.Name, p.Numbers(), p.Number(), p.About()}})
	}
	_, err = io.WriteString(o.Streams.Out, t.TextWithin(o.Streams.Columns(report.Width)))
	return err
}

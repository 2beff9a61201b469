package cli

import (
	"cmp"
	"slices"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/host"
	"seamrail/export/report/portsreport"
	"seamrail/motion/base/list"
)

// PortsOptions is what the ports command was asked.
type PortsOptions struct {
	Streams command.Streams
	List    func() ([]host.PortFacts, error) // where the ports come from
	Told    command.Told
}

// NewCmdPorts returns the ports command. A nil run means the real one.
func NewCmdPorts(s command.Streams, run func(*PortsOptions) error) *cobra.Command {
	o := &PortsOptions{Streams: s, List: host.Ports}
	c := &cobra.Command{
		Use:   "ports",
		Short: "List the serial ports and what is known of each",
		Long: `List the serial ports of this computer, with what the system knows of each: its
USB numbers and the serial number of what is plugged in. None of them is opened,
so nothing moves and no board is reset.`,
		Example: "  seamrail ports\n  seamrail ports --json",
		Args:    command.Nothing,
		RunE:    func(*cobra.Command, []string) error { return command.Or(run, portsRun)(o) },
	}
	o.Told.Register(c, portsreport.Schema)
	return c
}

func portsRun(o *PortsOptions) error {
	ports, err := o.List()
	if err != nil {
		return exit.Failed("the system does not tell its serial ports: %w", err)
	}
	slices.SortFunc(ports, func(a, b host.PortFacts) int { return cmp.Compare(a.Name, b.Name) })
	return o.Told.Tell(o.Streams, portsreport.Data{Ports: list.Map(ports, func(p host.PortFacts) portsreport.Port {
		return portsreport.Port{Name: p.Name, USB: p.Numbers(), Serial: p.Number(), About: p.About()}
	})})
}

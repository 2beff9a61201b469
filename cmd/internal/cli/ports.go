package cli

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"seamrail/export/header"
)

// PortFacts is what the system knows of a serial port.
type PortFacts struct {
	Name            string
	USB             bool
	Vendor, Product string // USB numbers, hexadecimal
	Serial          string // number of what is plugged in
	Maker, Title    string // what it says it is
}

// PortsOptions is what the ports command was asked.
type PortsOptions struct {
	Streams Streams
	List    func() ([]PortFacts, error) // where the ports come from
}

// NewCmdPorts returns the ports command. A nil run means the real one.
func NewCmdPorts(s Streams, run func(*PortsOptions) error) *cobra.Command {
	o := &PortsOptions{Streams: s, List: systemPorts}
	if run == nil {
		run = portsRun
	}
	return &cobra.Command{
		Use:   "ports",
		Short: "List the serial ports and what is known of each",
		Long: `List the serial ports of this computer, with what the system knows of each: its
USB numbers and the serial number of what is plugged in. None of them is opened,
so nothing moves and no board is reset.`,
		Example: "  seamrail ports",
		Args:    nothing,
		RunE:    func(*cobra.Command, []string) error { return run(o) },
	}
}

const noPorts = `There is no serial port here. Is the rig plugged in and switched on? Some boards
need a driver before the system shows them. "seamrail drive --virtual" runs a
shot on a rig made of software.
`

func portsRun(o *PortsOptions) error {
	ports, err := o.List()
	if err != nil {
		return &RigError{fmt.Errorf("the system does not tell its serial ports: %w", err)}
	}
	if len(ports) == 0 {
		_, err := io.WriteString(o.Streams.Out, noPorts)
		return err
	}
	slices.SortFunc(ports, func(a, b PortFacts) int { return cmp.Compare(a.Name, b.Name) })
	t := tabwriter.NewWriter(o.Streams.Out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "PORT\tUSB\tSERIAL NUMBER\tWHAT IT SAYS IT IS")
	for _, p := range ports {
		fmt.Fprintln(t, strings.Join([]string{p.Name, usbNumbers(p), known(p.Serial), known(said(p))}, "\t"))
	}
	return t.Flush()
}

// usbNumbers are the vendor's and the product's number, as "1234:00ab".
func usbNumbers(p PortFacts) string {
	if !p.USB {
		return "-"
	}
	return header.Clean(strings.ToLower(p.Vendor + ":" + p.Product))
}

func said(p PortFacts) string {
	return strings.TrimSpace(p.Maker + " " + p.Title)
}

// known is a text from a device, made safe to print, or a dash.
func known(s string) string {
	if s = strings.TrimSpace(header.Clean(s)); s == "" {
		return "-"
	}
	return s
}

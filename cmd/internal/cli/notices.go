package cli

import (
	"github.com/spf13/cobra"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/notices"
)

// newCmdNotices returns the notices command.
func newCmdNotices(s command.Streams) *cobra.Command {
	return &cobra.Command{
		Use:     "notices",
		Short:   "Print the licences of what the program carries",
		Long:    "Print the licences, in full, of the libraries and the typeface that are part of this program.",
		Example: "  seamrail notices",
		Args:    command.Nothing,
		RunE: func(*cobra.Command, []string) error {
			return command.Deliver(s, command.Stdout, atomicfile.Bytes([]byte(notices.Text)))
		},
	}
}

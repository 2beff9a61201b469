package cli

import (
	"strings"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/exit"
)

// newCmdHelp returns the help command. That of the library takes a command that
// is not there for one whose help is the list of all, and ends well.
func newCmdHelp() *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND]",
		Short: "Help about any command",
		Long:  "Print the help of a command, or of the program.",
		ValidArgsFunction: func(c *cobra.Command, args []string, _ string) ([]cobra.Completion, cobra.ShellCompDirective) {
			var names []cobra.Completion
			for _, x := range c.Root().Commands() {
				if len(args) == 0 && x.IsAvailableCommand() {
					names = append(names, cobra.CompletionWithDesc(x.Name(), x.Short))
				}
			}
			return names, cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(c *cobra.Command, args []string) error {
			about, rest, err := c.Root().Find(args)
			switch {
			case err != nil || about == c.Root():
				if err := noSuchCommand(c.Root(), args); err != nil {
					return err
				}
			case len(rest) > 0:
				return exit.Misused("%q has no command %q", about.CommandPath(), strings.Join(rest, " "))
			}
			about.InitDefaultHelpFlag() // so that it is listed
			return about.Help()
		},
	}
}

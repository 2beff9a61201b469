package command

import (
	"github.com/spf13/cobra"

	"seamrail/motion/law"
	"seamrail/motion/law/optimal"
)

// CompleteLaw completes the name of a motion law.
func CompleteLaw(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return append(law.Names(), optimal.Made()...), cobra.ShellCompDirectiveNoFileComp
}

package cli

import (
	"github.com/spf13/cobra"

	"seamrail/motion/law"
	"seamrail/motion/rig"
)

func completeLaw(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return law.Names(), cobra.ShellCompDirectiveNoFileComp
}

func completeKind(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return rig.KindNames(), cobra.ShellCompDirectiveNoFileComp
}

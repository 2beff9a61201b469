package cli

import (
	"github.com/spf13/cobra"

	"seamrail/motion/law"
)

func completeLaw(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return law.Names(), cobra.ShellCompDirectiveNoFileComp
}

package cli

import (
	"strings"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/starter"
	"seamrail/motion/law"
	"seamrail/motion/optimal"
	"seamrail/motion/rig"
)

func completeLaw(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return append(law.Names(), optimal.Made()...), cobra.ShellCompDirectiveNoFileComp
}

func completeTable(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return strings.Split(starter.TableLetters, ""), cobra.ShellCompDirectiveNoFileComp
}

func completeKind(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return rig.KindNames(), cobra.ShellCompDirectiveNoFileComp
}

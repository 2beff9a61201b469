package newfiles

import (
	"strings"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/starter"
	"seamrail/motion/spec/rig"
)

func completeTable(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return strings.Split(starter.TableLetters, ""), cobra.ShellCompDirectiveNoFileComp
}

func completeKind(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return rig.KindNames(), cobra.ShellCompDirectiveNoFileComp
}

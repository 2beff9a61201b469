package cli

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"seamrail/cmd/internal/exit"
)

// named refuses an argument or a value of a flag that is empty: what was meant
// was named, by a variable that is not set perhaps, and must not become what
// runs when nothing is named.
func named(c *cobra.Command, args []string) error {
	if strings.HasPrefix(c.Name(), cobra.ShellCompRequestCmd) {
		return nil // an empty word is one to complete
	}
	if slices.ContainsFunc(args, blank) {
		return exit.Misused("an argument is empty, and an empty name is no name: was a variable not set? Name it, or leave it out")
	}
	var err error
	c.Flags().Visit(func(f *pflag.Flag) {
		if err == nil && slices.ContainsFunc(valuesOf(f), blank) {
			err = exit.Misused("--%s is empty, and an empty value is none: was a variable not set? Give one, or leave --%s out", f.Name, f.Name)
		}
	})
	return err
}

// valuesOf are the values of a flag: those of a list, of which there must be
// one, or its only one.
func valuesOf(f *pflag.Flag) []string {
	list, ok := f.Value.(pflag.SliceValue)
	if !ok {
		return []string{f.Value.String()}
	}
	if all := list.GetSlice(); len(all) > 0 {
		return all
	}
	return []string{""}
}

func blank(text string) bool { return strings.TrimSpace(text) == "" }

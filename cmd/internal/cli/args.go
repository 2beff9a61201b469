package cli

import (
	"github.com/spf13/cobra"

	"seamrail/cmd/internal/exit"
)

// exactly asks for one argument and says what it should be.
func exactly(what string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		switch {
		case len(args) == 0:
			return exit.Misused("needs %s", what)
		case len(args) > 1:
			return exit.Misused("needs only %s; %q is too much", what, args[1])
		}
		return nil
	}
}

// atMost lets one argument be there or not.
func atMost(what string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		if len(args) > 1 {
			return exit.Misused("takes %s and no more; %q is too much", what, args[1])
		}
		return nil
	}
}

// nothing lets no argument be there.
func nothing(_ *cobra.Command, args []string) error {
	if len(args) > 0 {
		return exit.Misused("takes no arguments; %q is too much", args[0])
	}
	return nil
}

func first(args []string) string {
	if len(args) == 0 {
		return ""
	}
	return args[0]
}

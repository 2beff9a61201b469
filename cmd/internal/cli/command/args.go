package command

import (
	"github.com/spf13/cobra"

	"seamrail/cmd/internal/exit"
)

// Exactly asks for one argument and says what it should be.
func Exactly(what string) cobra.PositionalArgs {
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

// AtMost lets one argument be there or not.
func AtMost(what string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		if len(args) > 1 {
			return exit.Misused("takes %s and no more; %q is too much", what, args[1])
		}
		return nil
	}
}

// Nothing lets no argument be there.
func Nothing(_ *cobra.Command, args []string) error {
	if len(args) > 0 {
		return exit.Misused("takes no arguments; %q is too much", args[0])
	}
	return nil
}

// First is the first argument, or "".
func First(args []string) string {
	if len(args) == 0 {
		return ""
	}
	return args[0]
}

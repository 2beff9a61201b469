// Package command is what the commands share: the flags of a shot, where they read and
// print, how their arguments are checked, and bars for what takes long.
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

// OfFile lets a command take one argument at most, said what it should be. Once that is
// in its place, the command is run with its options: as usual, unless a test says how.
func OfFile[O any](
	c *cobra.Command, what string, arg *string, o *O, run, usual func(*O) error,
) *cobra.Command {
	c.Args = AtMost(what)
	c.RunE = func(_ *cobra.Command, args []string) error {
		if len(args) > 0 {
			*arg = args[0]
		}
		return Or(run, usual)(o)
	}
	return c
}

// OfShot is OfFile of a shot, with the flags that take the place of its values.
func OfShot[O any](
	c *cobra.Command, shot *ShotFlags, o *O, run, usual func(*O) error,
) *cobra.Command {
	shot.Register(c)
	return OfFile(c, "one shot file", &shot.Shot, o, run, usual)
}

// Or is run, unless that is nil.
func Or[O any](run, usual func(*O) error) func(*O) error {
	if run == nil {
		return usual
	}
	return run
}

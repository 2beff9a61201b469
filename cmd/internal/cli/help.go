package cli

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/guide"
	"seamrail/motion/base/source"
)

// Commands stand in the order in which they are added, which is that of a day.
func init() { cobra.EnableCommandSorting = false }

// newCmdHelp returns the help command. That of the library takes a command that
// is not there for one whose help is the list of all, and ends well.
func newCmdHelp(s command.Streams) *cobra.Command {
	return &cobra.Command{
		Use:               "help [COMMAND or CHAPTER]",
		Short:             "Help about a command, or a chapter of the guide",
		Long:              "Print the help of a command, a chapter of the guide, or the list of both.",
		ValidArgsFunction: completeHelp,
		RunE: func(c *cobra.Command, args []string) error {
			about, rest, err := c.Root().Find(args)
			switch {
			case err != nil || about == c.Root():
				if len(args) > 0 {
					return showChapter(s, c.Root(), args)
				}
			case len(rest) > 0:
				return exit.Misused("%q has no command %q", about.CommandPath(), strings.Join(rest, " "))
			}
			about.InitDefaultHelpFlag() // so that they are listed
			about.InitDefaultVersionFlag()
			return about.Help()
		},
	}
}

// completeHelp completes what there is help about.
func completeHelp(
	c *cobra.Command, args []string, _ string,
) (names []cobra.Completion, _ cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	for _, x := range c.Root().Commands() {
		if x.IsAvailableCommand() {
			names = append(names, cobra.CompletionWithDesc(x.Name(), x.Short))
		}
	}
	for _, x := range guide.Chapters() {
		names = append(names, cobra.CompletionWithDesc(x.Name, x.Short))
	}
	return names, cobra.ShellCompDirectiveNoFileComp
}

// showChapter prints the chapter that is asked for, in one word or as its title, or says
// what there is instead.
func showChapter(s command.Streams, root *cobra.Command, args []string) error {
	chapter, there := guide.Find(strings.ToLower(strings.Join(args, "-")))
	if !there {
		return noSuchHelp(root, strings.Join(args, " "))
	}
	return command.Deliver(s, command.Stdout, func(w io.Writer) error {
		return chapter.Text(w, s.Columns(guide.MostWide), s.Colour)
	})
}

const noSuch = "there is no command %q, nor such a chapter; "

// noSuchHelp says that there is neither a command nor a chapter of that name, and which
// is the nearest.
func noSuchHelp(root *cobra.Command, name string) error {
	var chapters, all []string
	for _, c := range guide.Chapters() {
		chapters = append(chapters, c.Name)
	}
	for _, c := range root.Commands() {
		all = append(all, c.Name())
	}
	if near := source.Nearest(name, append(all, chapters...)); near != "" {
		return exit.Misused(noSuch+"did you mean %q?", name, near)
	}
	return exit.Misused(noSuch+"the chapters are %s, and \"seamrail help\" lists the commands",
		name, strings.Join(chapters, ", "))
}

// helped adds the chapters to the help of the program, and to that of a command the one
// that tells of it.
func helped(usual func(*cobra.Command, []string)) func(*cobra.Command, []string) {
	return func(c *cobra.Command, args []string) {
		usual(c, args)
		if c.HasParent() {
			if chapter, ok := guide.On(c.Name()); ok {
				fmt.Fprintf(c.OutOrStdout(), "\nMore in the guide:\n  seamrail help %s\n", chapter.Name)
			}
			return
		}
		fmt.Fprintln(c.OutOrStdout(), "\nThe guide, by chapters; \"seamrail help first-loop\" is the first:")
		for _, x := range guide.Chapters() {
			fmt.Fprintf(c.OutOrStdout(), "  %-11s %s\n", x.Name, x.Short)
		}
	}
}

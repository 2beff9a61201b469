package command

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/exit"
	"seamrail/export/report"
	"seamrail/export/report/filesreport"
	"seamrail/motion/base/list"
	"seamrail/motion/base/source"
)

// Told is how much a command tells of what it has found, and to whom.
type Told struct {
	JSON bool
	All  bool
	Show []string // sections, by the words that ask for them
}

// Register adds the flag of facts, whose layout a schema names.
func (t *Told) Register(c *cobra.Command, schema string) {
	c.Flags().BoolVar(&t.JSON, "json", false, "report as JSON ("+schema+")")
}

// RegisterFiles is Register of a command that writes files and tells of nothing else.
func (t *Told) RegisterFiles(c *cobra.Command) {
	c.Flags().BoolVar(&t.JSON, "json", false, "say what was written as JSON ("+filesreport.Schema+")")
}

// RegisterParts adds the flags of a report that is short unless more is asked for, with
// the one that some arguments ask for to complete its sections from.
func (t *Told) RegisterParts(c *cobra.Command, schema string, of func(args []string) (report.Content, error)) {
	t.Register(c, schema)
	c.Flags().BoolVar(&t.All, "all", false, "tell everything, section by section")
	c.Flags().StringSliceVar(&t.Show, "show", nil, "tell these `SECTIONS` of it, such as picture,controller")
	_ = c.RegisterFlagCompletionFunc("show", func(_ *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
		told, err := of(args)
		if err != nil {
			return nil, cobra.ShellCompDirectiveError
		}
		return completed(told.Report(), typed), cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveNoSpace
	})
}

// Tell writes what there is to tell to standard output: as JSON, or as a report in
// colours where they show.
func (t Told) Tell(s Streams, c report.Content) error {
	if t.JSON && (t.All || len(t.Show) > 0) {
		return exit.Misused("--json tells everything; leave --all and --show out")
	}
	if t.JSON {
		return Deliver(s, Stdout, func(w io.Writer) error { return report.JSON(w, c.Facts()) })
	}
	r, err := t.parts(c)
	if err != nil {
		return err
	}
	return Deliver(s, Stdout, func(w io.Writer) error { return report.TextWithin(w, r, s.Colour, s.Columns(report.Width)) })
}

// parts is as much of a report as was asked for.
func (t Told) parts(c report.Content) (report.Report, error) {
	whole := c.Report()
	if len(t.Show) > 0 {
		return only(whole, t.Show)
	}
	brief, is := c.(report.Brief)
	if t.All || !is {
		return whole, nil
	}
	return pointed(brief.Brief(), whole.Names()), nil
}

// cautionsName asks for what to mind before anything moves, of a report that has it.
const cautionsName = "cautions"

// pointed is a short report that says at its end what else there is.
func pointed(short report.Report, all []string) report.Report {
	told := short.Names()
	rest := slices.DeleteFunc(all, func(name string) bool { return slices.Contains(told, name) })
	short.Named("", "")
	if slices.Contains(rest, cautionsName) {
		short.Bullets(report.Fair, "!", "Nothing moves here. What to mind before anything does: --show "+cautionsName)
	}
	short.Add(report.Note{Text: "More: --all, or --show with any of " + strings.Join(rest, ", ")})
	return short
}

// only is some sections of a report.
func only(whole report.Report, asked []string) (report.Report, error) {
	there := slices.Concat(whole.Names(), whole.Groups())
	words := list.Map(asked, report.Word)
	for i, word := range words {
		if !slices.Contains(there, word) {
			meant := ""
			if near := source.Nearest(word, there); near != "" {
				meant = fmt.Sprintf("; did you mean %q?", near)
			}
			return whole, exit.Misused("--show %q is no section of this report; it has %s%s", asked[i], strings.Join(there, ", "), meant)
		}
	}
	return whole.Only(words...), nil
}

// completed are the sections of a report that a list of words, which is being typed, can
// go on with.
func completed(r report.Report, typed string) []string {
	lead := typed[:strings.LastIndex(typed, ",")+1]
	return list.Map(slices.Concat(r.Names(), r.Groups()), func(word string) string { return lead + word })
}

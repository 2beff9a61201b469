// Package manual writes manual pages, in the man macros of roff, from a tree
// of commands and from the chapters of the guide.
package manual

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// Commands returns the command and all those below it that have a page.
func Commands(root *cobra.Command) []*cobra.Command {
	out := []*cobra.Command{root}
	for _, c := range root.Commands() {
		if c.IsAvailableCommand() && !c.IsAdditionalHelpTopicCommand() {
			out = append(out, Commands(c)...)
		}
	}
	return out
}

// FileName returns the name of a command's page: "seamrail-plan.1".
func FileName(c *cobra.Command) string { return dashed(c) + ".1" }

func dashed(c *cobra.Command) string { return strings.ReplaceAll(c.CommandPath(), " ", "-") }

// Write writes the page of a command. It has no date, so that the same program
// always writes the same page.
func Write(w io.Writer, c *cobra.Command) error {
	c.InitDefaultHelpFlag()
	var b strings.Builder
	fmt.Fprintf(&b, ".TH \"%s\" \"1\" \"\" \"seamrail\" \"Manual\"\n", strings.ToUpper(escape(dashed(c))))
	fmt.Fprintf(&b, ".SH NAME\n%s \\- %s\n", escape(dashed(c)), escape(lowerFirst(c.Short)))
	fmt.Fprintf(&b, ".SH SYNOPSIS\n.B %s\n", escape(c.UseLine()))
	b.WriteString(".SH DESCRIPTION\n" + paragraphs(description(c)))
	options(&b, "OPTIONS", c.NonInheritedFlags())
	options(&b, "GENERAL OPTIONS", c.InheritedFlags())
	if c.Example != "" {
		b.WriteString(".SH EXAMPLES\n.nf\n" + escape(c.Example) + "\n.fi\n")
	}
	related(&b, c)
	_, err := io.WriteString(w, b.String())
	return err
}

func description(c *cobra.Command) string {
	if c.Long != "" {
		return c.Long
	}
	return c.Short + "."
}

// paragraphs keeps indented lines as they are and fills the others.
func paragraphs(text string) string {
	var b strings.Builder
	for _, p := range strings.Split(strings.TrimSpace(text), "\n\n") {
		if strings.Contains("\n"+p, "\n ") {
			b.WriteString(".PP\n.nf\n" + escape(p) + "\n.fi\n")
			continue
		}
		b.WriteString(".PP\n" + escape(p) + "\n")
	}
	return b.String()
}

func options(b *strings.Builder, title string, flags *pflag.FlagSet) {
	if !flags.HasAvailableFlags() {
		return
	}
	fmt.Fprintf(b, ".SH %s\n", title)
	flags.VisitAll(func(f *pflag.Flag) {
		if f.Hidden {
			return
		}
		name, usage := pflag.UnquoteUsage(f)
		head := "--" + f.Name
		if f.Shorthand != "" {
			head = "-" + f.Shorthand + ", " + head
		}
		if name != "" {
			head += " " + name
		}
		fmt.Fprintf(b, ".TP\n.B %s\n%s\n", escape(head), escape(usage))
	})
}

func related(b *strings.Builder, c *cobra.Command) {
	var names []string
	for _, s := range c.Commands() {
		if s.IsAvailableCommand() {
			names = append(names, dashed(s))
		}
	}
	slices.Sort(names) // the commands stand as a day goes, and these as they are sought
	if c.HasParent() {
		names = slices.Insert(names, 0, dashed(c.Parent()))
	}
	if len(names) == 0 {
		return
	}
	for i, n := range names {
		names[i] = "\\fB" + escape(n) + "\\fR(1)"
	}
	b.WriteString(".SH SEE ALSO\n" + strings.Join(names, ",\n") + "\n")
}

var roff = strings.NewReplacer(`\`, `\e`, "-", `\-`, "°", `\(de`, "²", `\(S2`, "³", `\(S3`)

// escape keeps roff from reading text as anything but text: a backslash, a
// hyphen that must stay one, a line that starts like a request.
func escape(text string) string {
	lines := strings.Split(roff.Replace(text), "\n")
	for i, l := range lines {
		if strings.HasPrefix(l, ".") || strings.HasPrefix(l, "'") {
			lines[i] = `\&` + l
		}
	}
	return strings.Join(lines, "\n")
}

func lowerFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}

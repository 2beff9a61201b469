package guide

import (
	"io"
	"strconv"
	"strings"

	"seamrail/export/report"
)

// Widths of a page in a terminal, in characters: what is wider than the first is hard to
// read, and what is narrower than the last is no terminal.
const (
	MostWide  = report.Width
	leastWide = 20
)

// How far things stand from the left, in characters: what stands under a heading, and
// code in that.
const (
	indent = 2
	deeper = 2
)

// Text writes the chapter for a terminal that is so wide. The error is the writer's.
func (c Chapter) Text(w io.Writer, width int, colour bool) error {
	t := terminal{page: page{colour: colour}, width: min(max(width, leastWide), MostWide)}
	for i, p := range c.content().Parts {
		if i > 0 {
			t.page.line("")
		}
		t.part(p, indent)
	}
	_, err := io.WriteString(w, t.page.b.String())
	return err
}

// terminal is a chapter that is being laid out.
type terminal struct {
	page  page
	width int
}

// part lays out what stands so far from the left.
func (t *terminal) part(p part, left int) {
	switch p.Kind {
	case heading:
		t.heading(p)
	case typed:
		t.code(p, bold, left) // it stands out from what is seen
	case fenced:
		t.code(p, "", left)
	case list:
		t.list(p, left)
	case quote:
		for i, one := range p.Parts {
			if i > 0 {
				t.page.line("")
			}
			t.hung("! ", words(runs(one.Text, bold)), left)
		}
	case table:
		t.table(p, left)
	default:
		t.hung("", words(runs(p.Text, "")), left)
	}
}

// code is never folded: it would be other code.
func (t *terminal) code(p part, colour string, left int) {
	for _, l := range p.Lines {
		t.page.line(spaces(left+deeper) + t.page.paint(colour, l))
	}
}

// heading is flush left, as those of a report are.
func (t *terminal) heading(p part) {
	all := runs(p.Text, bold)
	if p.Level > 1 {
		for i := range all {
			all[i].text = strings.ToUpper(all[i].text)
		}
	}
	t.hung("", words(all), 0)
}

// hung lays out words behind a mark, every line below the first word.
func (t *terminal) hung(mark string, all []word, left int) {
	for _, l := range folded(all, t.width-left-len(mark)) {
		t.page.line(spaces(left) + mark + l.painted(&t.page))
		mark = strings.Repeat(" ", len(mark))
	}
}

func (t *terminal) list(p part, left int) {
	for i, one := range p.Parts {
		mark := "- "
		if p.First > 0 {
			mark = strconv.Itoa(p.First+i) + ". "
		}
		t.hung(mark, words(runs(one.Text, "")), left)
	}
}

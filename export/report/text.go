package report

import (
	"io"
	"math"
	"strings"

	"seamrail/motion/base/plain"
)

// Layout of the text, in characters. The column of labels holds the longest,
// "acceleration", with a space on either side; that of values "4166.67 deg/s2" and
// a space, that of shares "157 % of". A bar is what all of a limit takes: what is left
// beside these and a limit of limitWidth, and no more than the eye can compare.
const (
	indent     = 2
	labelWidth = 14
	valueWidth = 17
	shareWidth = 8
	limitWidth = 21
	barWidth   = 40 // at most
)

// Widths of a text, in characters: one that is narrower has no room for its columns,
// and the eye loses the line in one that is wider (common practice).
const (
	Narrowest = 60
	Broadest  = 120
)

// The tones as ANSI SGR codes (ECMA-48, section 8.3.117), and the title's.
var codes = [...]string{Plain: "", Dim: "2", Strong: "1", Good: "32", Fair: "33", Poor: "31", Grave: "1;31"}

const titleCode = "1;36"

// Text writes a report as text of at most 80 columns, with colours and drawn bars
// for a terminal that shows them. The error is the writer's.
func Text(w io.Writer, r Report, colour bool) error { return TextWithin(w, r, colour, Width) }

// TextWithin is Text of another width, as far as there is one that can be read. What
// cannot be broken, such as the name of a file, may stand out.
func TextWithin(w io.Writer, r Report, colour bool, columns int) error {
	p := page{colour: colour, width: min(max(columns, Narrowest), Broadest)}
	p.heading(titleCode, r.Title)
	if r.Subtitle != "" {
		p.heading(codes[Dim], r.Subtitle)
	}
	for _, s := range r.Sections {
		p.section(s)
	}
	_, err := io.WriteString(w, p.b.String())
	return err
}

// page is a text being written.
type page struct {
	colour bool
	width  int // in characters
	b      strings.Builder
}

// heading adds a text that stands alone.
func (p *page) heading(code, text string) {
	for _, l := range Fold(plain.Line(text), p.width) {
		p.line(p.paint(code, l))
	}
}

// line adds a line without spaces at its end.
func (p *page) line(text string) {
	p.b.WriteString(strings.TrimRight(text, " "))
	p.b.WriteByte('\n')
}

// paint returns a text made harmless, in a colour where there are any.
func (p *page) paint(code, text string) string {
	text = plain.Text(text)
	if !p.colour || text == "" || code == "" {
		return text
	}
	return "\x1b[" + code + "m" + text + "\x1b[0m"
}

func (p *page) section(s Section) {
	if len(s.Blocks) == 0 {
		return
	}
	p.line("")
	if s.Title != "" {
		p.heading(codes[Strong], s.Title)
	}
	for i, b := range s.Blocks {
		if b.kind() == "table" && i > 0 {
			p.line("")
		}
		p.block(b)
	}
}

func (p *page) block(b Block) {
	switch b := b.(type) {
	case Headline:
		p.folded(p.paint(codes[Strong]+";"+codes[b.Tone], b.Stamp)+"  ", length(b.Stamp)+2, b.Words, Plain)
	case Field:
		p.field(b)
	case Gauge:
		p.gauge(b)
	case Bullet:
		p.folded(spaces(indent)+p.paint(codes[b.Tone], b.Mark)+" ", indent+2, b.Text, Plain)
	case Table:
		p.table(b)
	case Note:
		p.folded(spaces(indent), indent, b.Text, Dim)
	case Figure:
		p.field(Field{Label: b.File, Text: b.Alt})
	}
}

// folded prints text behind a head that takes so many columns, and further lines
// under its beginning.
func (p *page) folded(head string, columns int, text string, tone Tone) {
	for _, l := range Fold(plain.Text(text), p.width-columns) {
		p.line(head + p.paint(codes[tone], l))
		head = spaces(columns)
	}
}

func (p *page) field(f Field) {
	head := p.label(f.Label)
	if f.Mark != "" {
		head = p.paint(codes[f.Tone], f.Mark) + head[1:]
	}
	if f.Code {
		p.line(head + p.paint(codes[f.Tone], f.Text))
		return
	}
	for _, l := range Fold(plain.Text(f.Text), p.width-indent-labelWidth) {
		p.line(head + p.paint(codes[f.Tone], l))
		head = p.label("")
	}
}

// label is a label in its column. One that is as wide as that has a line to itself.
func (p *page) label(label string) string {
	head := spaces(indent)
	if label = plain.Text(label); length(label) >= labelWidth {
		p.line(head + p.paint(codes[Dim], label))
		label = ""
	}
	return head + p.paint(codes[Dim], pad(label, labelWidth, false))
}

// gauge prints a value, how much of its limit it is, and below it where that is.
func (p *page) gauge(g Gauge) {
	told := " " + pad(g.Told, shareWidth, true) + " " + g.Limit
	p.line(p.label(g.Label) + p.paint("", pad(g.Value, valueWidth, false)) + p.bar(g) + p.paint("", told))
	if g.When != "" {
		p.line(p.label("") + p.paint(codes[Dim], spaces(valueWidth)+g.When))
	}
}

// bar draws a share of a limit, as wide as there is room. More than the whole fills it.
func (p *page) bar(g Gauge) string {
	room := p.width - indent - labelWidth - valueWidth - len("  ") - shareWidth - limitWidth
	wide := min(max(room, 0), barWidth)
	full := int(math.Round(min(g.Share, 1) * float64(wide)))
	on, off := "#", "."
	if p.colour {
		on, off = "━", "─"
	}
	return p.paint(codes[g.Tone], strings.Repeat(on, full)) + p.paint(codes[Dim], strings.Repeat(off, wide-full))
}

func (p *page) table(t Table) {
	for _, l := range t.lines(p.width - indent) {
		head, last := l.text, ""
		if l.verdict != Plain {
			head, last = l.text[:l.last], l.text[l.last:]
		}
		p.line(spaces(indent) + p.paint(codes[l.tone], head) + p.paint(codes[l.verdict], last))
	}
	if legend := t.legend(p.width - indent); legend != "" {
		p.block(Note{legend})
	}
}

// Package textpage lays out reports for people: lines of at most 80 characters,
// a column of labels, and colours for a terminal.
package textpage

import (
	"io"
	"strings"
	"unicode/utf8"
)

// Layout of the text, in characters. The first column holds the longest label,
// "acceleration", with a space on either side.
const (
	Width      = 80
	Indent     = 2
	LabelWidth = 14
)

// The colours, as ANSI SGR codes (ECMA-48, section 8.3.117).
const (
	Bold   = "1"
	Dim    = "2"
	Red    = "31"
	Green  = "32"
	Yellow = "33"
	Cyan   = "36"
)

// Page collects lines. The zero value is an empty plain page.
type Page struct {
	Colour bool // ANSI colours, for a terminal
	b      strings.Builder
}

// WriteTo writes the page.
func (p *Page) WriteTo(w io.Writer) (int64, error) {
	n, err := io.WriteString(w, p.b.String())
	return int64(n), err
}

// Paint returns text in a colour, or as it is on a plain page.
func (p *Page) Paint(code, text string) string {
	if !p.Colour || text == "" || code == "" {
		return text
	}
	return "\x1b[" + code + "m" + text + "\x1b[0m"
}

// Line adds a line as it is, but for spaces at its end.
func (p *Page) Line(text string) {
	p.b.WriteString(strings.TrimRight(text, " "))
	p.b.WriteByte('\n')
}

// Blank adds an empty line.
func (p *Page) Blank() { p.b.WriteByte('\n') }

// Section begins a part of the page.
func (p *Page) Section(title string) {
	p.Blank()
	p.Line(p.Paint(Bold, title))
}

// Field prints a label and its text, which is folded into the second column.
func (p *Page) Field(label, text string) { p.Inked("", label, text) }

// Inked is a field whose text is in a colour.
func (p *Page) Inked(code, label, text string) {
	for i, part := range Fold(text, Width-Indent-LabelWidth) {
		if i > 0 {
			label = ""
		}
		p.Raw(label, p.Paint(code, part))
	}
}

// Raw prints a label and text that is already coloured and short enough.
func (p *Page) Raw(label, text string) {
	p.Line(Spaces(Indent) + p.Paint(Dim, Pad(label, LabelWidth)) + text)
}

// Bullet prints text behind a mark, folded.
func (p *Page) Bullet(code, mark, text string) {
	for i, part := range Fold(text, Width-Indent-2) {
		if i > 0 {
			mark = " "
		}
		p.Line(Spaces(Indent) + p.Paint(code, mark) + " " + part)
	}
}

// Fold breaks text at spaces into lines of at most width characters. A word
// longer than that has a line to itself.
func Fold(text string, width int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		switch {
		case line == "":
			line = word
		case length(line)+1+length(word) <= width:
			line += " " + word
		default:
			lines = append(lines, line)
			line = word
		}
	}
	return append(lines, line)
}

func length(s string) int { return utf8.RuneCountInString(s) }

// Spaces returns n spaces; none below 0.
func Spaces(n int) string { return strings.Repeat(" ", max(0, n)) }

// Pad fills s up to width with spaces behind it.
func Pad(s string, width int) string { return s + Spaces(width-length(s)) }

// PadLeft fills s up to width with spaces before it.
func PadLeft(s string, width int) string { return Spaces(width-length(s)) + s }

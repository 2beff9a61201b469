package report

import (
	"strings"
	"unicode/utf8"
)

// Layout of the text, in characters. The first column holds the longest label,
// "acceleration", with a space on either side.
const (
	pageWidth  = 80
	indent     = 2
	labelWidth = 14
)

// The colours, as ANSI SGR codes (ECMA-48, section 8.3.117).
const (
	bold   = "1"
	dim    = "2"
	red    = "31"
	green  = "32"
	yellow = "33"
	cyan   = "36"
)

// page collects lines no longer than pageWidth.
type page struct {
	b      strings.Builder
	colour bool
}

// paint returns text in a colour, or as it is on a plain page.
func (p *page) paint(code, text string) string {
	if !p.colour || text == "" {
		return text
	}
	return "\x1b[" + code + "m" + text + "\x1b[0m"
}

func (p *page) line(text string) {
	p.b.WriteString(strings.TrimRight(text, " "))
	p.b.WriteByte('\n')
}

func (p *page) blank() { p.b.WriteByte('\n') }

// section begins a part of the page.
func (p *page) section(title string) {
	p.blank()
	p.line(p.paint(bold, title))
}

// field prints a label and its text, which is folded into the second column.
func (p *page) field(label, text string) { p.inked("", label, text) }

// inked is a field whose text is in a colour.
func (p *page) inked(code, label, text string) {
	for i, part := range fold(text, pageWidth-indent-labelWidth) {
		if i > 0 {
			label = ""
		}
		p.line(spaces(indent) + p.paint(dim, pad(label, labelWidth)) + p.ink(code, part))
	}
}

// bullet prints text behind a mark, folded.
func (p *page) bullet(code, mark, text string) {
	for i, part := range fold(text, pageWidth-indent-2) {
		if i > 0 {
			mark = " "
		}
		p.line(spaces(indent) + p.ink(code, mark) + " " + part)
	}
}

func (p *page) ink(code, text string) string {
	if code == "" {
		return text
	}
	return p.paint(code, text)
}

// fold breaks text at spaces into lines of at most width characters. A word
// longer than that has a line to itself.
func fold(text string, width int) []string {
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

func spaces(n int) string { return strings.Repeat(" ", max(0, n)) }

func pad(s string, width int) string { return s + spaces(width-length(s)) }

func padLeft(s string, width int) string { return spaces(width-length(s)) + s }

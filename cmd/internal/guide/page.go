package guide

import "strings"

// The colours of a chapter, as ANSI SGR codes (ECMA-48, section 8.3.117).
const (
	bold = "1"
	cyan = "36"
)

// page is a text for a terminal that is being written.
type page struct {
	colour bool
	b      strings.Builder
}

// line adds a line without spaces at its end.
func (p *page) line(text string) { p.b.WriteString(strings.TrimRight(text, " ") + "\n") }

// paint returns text in a colour, or as it is on a plain page.
func (p *page) paint(colour, text string) string {
	if !p.colour || text == "" || colour == "" {
		return text
	}
	return "\x1b[" + colour + "m" + text + "\x1b[0m"
}

func spaces(n int) string { return strings.Repeat(" ", n) }

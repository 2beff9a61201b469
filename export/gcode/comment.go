package gcode

import (
	"strings"

	"seamrail/export/header"
)

// plain spells out the marks that a rig or shot is likely to have in its words.
// Parentheses would end a comment. Several controllers act on the last five at
// once, in a comment or not.
var plain = strings.NewReplacer(
	"²", "2", "³", "3", "°", " deg", "×", "x", "µ", "u", "μ", "u", "–", "-", "—", "-",
	"“", "'", "”", "'", "‘", "'", "’", "'", "…", "...",
	"(", "[", ")", "]",
	"!", ".", "?", ".", "~", "-", "%", " percent", "$", "S")

// ascii returns s on one line in printable ASCII that can stand in a comment.
func ascii(s string) string {
	return strings.Map(func(r rune) rune {
		if r > '~' {
			return '_'
		}
		return r
	}, plain.Replace(header.Clean(s)))
}

// comments writes each line as one comment or, where it is too long for the
// controller, as several.
func (p *printer) comments(lines []string) {
	for _, l := range lines {
		p.comment(l)
	}
}

// continued begins a comment that goes on from the line before. It also keeps
// a word such as MSG, which some readers act on, from standing first.
const continued = ".. "

func (p *printer) comment(s string) {
	s = ascii(s)
	lead := ""
	for room := p.longest - len("()"); len(s) > room; room = p.longest - len("()"+continued) {
		cut := strings.LastIndexByte(s[:room+1], ' ')
		if cut <= 0 {
			cut = room
		}
		p.line("(" + lead + s[:cut] + ")")
		s, lead = strings.TrimLeft(s[cut:], " "), continued
	}
	p.line("(" + lead + s + ")")
}

package sheet

import (
	"fmt"
	"slices"

	"seamrail/plot/internal/style"
)

// Lacks says which characters of some pages the typeface of PDF and PNG lacks, and
// what becomes of them; "" where it has all.
func Lacks(pages ...Page) string {
	var texts []string
	for _, p := range pages {
		texts = append(texts, p.texts()...)
	}
	return LacksText(texts...)
}

// LacksText is Lacks of texts.
func LacksText(texts ...string) string {
	absent := style.Lacks(texts...)
	if len(absent) == 0 {
		return ""
	}
	return fmt.Sprintf("The typeface of PDF and PNG lacks %s: codes in brackets stand in their place. HTML and SVG have the characters themselves.", style.Codes(absent))
}

// texts are all that is set in type.
func (p Page) texts() []string {
	out := append([]string{p.Title, p.NotAbove, p.Foot}, p.Facts...)
	out = slices.Concat(out, p.Cautions, p.Presses, p.Fails, p.Tape)
	for _, g := range p.Groups {
		out = append(out, g.Name)
		for _, r := range g.Rows {
			out = append(out, r.Name, r.Value)
		}
	}
	for _, t := range p.tables() {
		out = append(append(append(out, t.Name), t.Heads...), t.Notes...)
		for _, r := range t.Rows {
			out = append(out, r...)
		}
	}
	for _, s := range p.Stills {
		out = append(out, s.Label)
	}
	out = append(out, p.StillNotes...)
	if p.Above != nil {
		for _, n := range p.Above.Notes() {
			out = append(out, n.Letter, n.Words)
		}
	}
	return out
}

func (p Page) tables() []Table { return []Table{p.Lamps, p.Dimmers, p.Focus, p.Marks, p.Moves, p.Cues} }

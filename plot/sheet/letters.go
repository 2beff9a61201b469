package sheet

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"golang.org/x/image/font/sfnt"
)

var regular = sync.OnceValues(func() (*sfnt.Font, error) { return sfnt.Parse(liberationsansregular.TTF) })

// mostNamed is how many letters an error names.
const mostNamed = 8

// Letters returns an error that names the letters of some pages that the PDF's
// font does not have, or nil. Write would return it too.
func Letters(pages []Page) error {
	font, err := regular()
	if err != nil {
		return err
	}
	var buf sfnt.Buffer
	for _, p := range pages {
		var absent []rune
		for _, text := range p.texts() {
			for _, r := range text {
				// What is beyond the basic plane (The Unicode Standard, section 2.8),
				// the library cannot set, whatever the font has.
				g, err := font.GlyphIndex(&buf, r)
				if (err != nil || g == 0 || r > 0xFFFF) && !spaced(r) && !slices.Contains(absent, r) {
					absent = append(absent, r)
				}
			}
		}
		if len(absent) > 0 {
			return fmt.Errorf("the PDF's font does not have %s, in the sheet of %q; the HTML sheet takes any letter", named(absent), p.Title)
		}
	}
	return nil
}

// spaced tells whether a letter only parts words.
func spaced(r rune) bool { return strings.TrimSpace(string(r)) == "" }

func named(absent []rune) string {
	var out []string
	for k, r := range absent {
		if k == mostNamed {
			return strings.Join(out, ", ") + fmt.Sprintf(" and %d more", len(absent)-k)
		}
		out = append(out, fmt.Sprintf("%q (%U)", string(r), r))
	}
	return strings.Join(out, ", ")
}

// texts are all that is set in type.
func (p Page) texts() []string {
	out := append([]string{p.Title, p.NotAbove, p.Foot}, p.Facts...)
	out = append(out, p.Cautions...)
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

func (p Page) tables() []Table { return []Table{p.Lamps, p.Marks, p.Moves, p.Cues} }

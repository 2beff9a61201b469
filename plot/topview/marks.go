package topview

import (
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/plot/vg"

	"seamrail/motion/camera/picture"
	"seamrail/plot/internal/style"
)

// mark is a lettered place to be set out.
type mark struct {
	letter string
	at     r2.Vec // mm
	hue    int
	name   string // on the drawing, "" for none
	far    string // how far off the drawing it stands, "" for on it
	words  string // in the list
}

// marksOf letters the lens at its ends and the lamps.
func (d Data) marksOf() []mark {
	var out []mark
	far := outlying(d.Above)
	add := func(at r2.Vec, hue int, name, called string, more ...string) {
		words := called + ": " + place(at)
		if more = slices.DeleteFunc(more, func(s string) bool { return s == "" }); len(more) > 0 {
			words += "; " + strings.Join(more, ", ")
		}
		m := mark{letter: letter(len(out)), at: at, hue: hue, name: name, words: words}
		if far[at] {
			m.far = mm(r2.Norm(at)) + " from the axis"
		}
		out = append(out, m)
	}
	for k, at := range d.Above.Lenses {
		high := ""
		if !math.IsNaN(at.Z) {
			high = mm(at.Z) + " above the table's top"
		}
		add(flat(at), hueOf(k), "", d.Ends[k], high)
	}
	lamps := d.lampDistances()
	d.of(picture.LampItem, func(i picture.Item) {
		add(i.Points[0], lampHue, i.Name, i.Name, lamps[i.Points[0]]+" from the product's middle", strings.ReplaceAll(i.Label, "the product's middle", "it"))
	})
	d.of(picture.HoleItem, func(i picture.Item) { add(i.Points[0], boardHue, i.Name, i.Name, i.Label) })
	return out
}

// lampDistances are the distances of the lamps from the product, in words, by
// where they hang.
func (d Data) lampDistances() map[r2.Vec]string {
	out := map[r2.Vec]string{}
	d.of(picture.DistanceItem, func(i picture.Item) { out[i.Points[0]] = i.Label })
	return out
}

// letter numbers places A to Z, then A2 and so on.
func letter(i int) string {
	s := string(rune('A' + i%26))
	if round := i / 26; round > 0 {
		s += string(rune('1' + round))
	}
	return s
}

// The disc of a letter, in points.
const discRadius vg.Length = 7

// marks draws a lettered disc beside each place, away from the table's axis.
func (p *page) marks() {
	for _, m := range p.d.marksOf() {
		anchor := p.shown(m.at)
		w, h := 2*discRadius, 2*discRadius
		text := style.Fit(m.name, 110, noteStyle)
		if m.far != "" {
			text += ", " + m.far
		}
		if text != "" {
			w += style.TextWidth(text, noteStyle) + 5
		}
		away := math.Atan2(m.at.Y, m.at.X)
		if r2.Norm(m.at) == 0 {
			away = -pi / 2
		}
		b, ok := p.around(anchor, w, h, away)
		if !ok {
			continue
		}
		p.tie(b, anchor, style.TextHue(m.hue))
		p.taken = append(p.taken, b.grown(1))
		p.disc(vg.Point{X: b.x0 + discRadius, Y: b.middle().Y}, m)
		if text == "" {
			continue
		}
		p.sheet.Fill(b.x0+2*discRadius+1, b.y0+2, b.x1, b.y1-2, style.Paper)
		st := noteStyle
		st.Color = style.TextHue(m.hue)
		p.sheet.Text(b.x0+2*discRadius+3, b.middle().Y-noteSize*0.35, text, st)
	}
}

func (p *page) disc(at vg.Point, m mark) {
	p.sheet.Dot(at, discRadius-0.8, style.TextHue(m.hue))
	p.sheet.Text(at.X, at.Y-noteSize*0.36, m.letter, style.Style{Size: noteSize, Bold: true, Color: style.Paper})
}

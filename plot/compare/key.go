package compare

import (
	"math"

	"gonum.org/v1/plot/vg"

	"seamrail/motion/law"
	"seamrail/plot/internal/look"
)

// key writes a line a law: its stroke, its name and its greatest speed,
// acceleration and jerk, with a word on those beyond the rig.
func (d Data) key(s *look.Sheet, y vg.Length) {
	small := look.Style{Size: look.Small, Color: look.Muted, Align: 1}
	columns := []vg.Length{0, 242, 328, frame.Width - look.Edge}
	head := look.Style{Size: look.Small, Color: look.Muted, Align: -1}
	s.Text(look.Edge, y-look.Small, "greatest, in "+d.Unit+" and s", head)
	for _, r := range all[1:] {
		s.Text(columns[r.order], y-look.Small, r.name, small)
	}
	y -= 18
	s.Line(look.Edge, y, frame.Width-look.Edge, y, 0.8, look.Faint)
	for i, l := range d.Laws {
		y -= keyRow
		s.Line(look.Edge, y+4, look.Edge+34, y+4, 2.2, look.Hue(i), look.Dash(i)...)
		s.Text(look.Edge+42, y, look.Fit(l.Name(), 118, look.Style{Size: look.Body}),
			look.Style{Size: look.Body, Color: look.Ink, Align: -1})
		for _, r := range all[1:] {
			v := d.peak(l, r)
			text, st := d.told(v, d.limit(r.order))
			s.Text(columns[r.order], y, text, st)
		}
	}
}

// peak is the greatest size of a derivative from rest to rest. A law's own
// factors leave out the jumps at its ends, which here come from rest: a speed
// that starts above zero takes an unbounded acceleration, and so on.
func (d Data) peak(l law.Law, r row) float64 {
	start := l.At(0)
	if r.order > 1 && start.V != 0 || r.order > 2 && start.A != 0 {
		return math.Inf(1)
	}
	return r.peak(l.Peaks()) * d.scale(r.order)
}

// told prints a peak; beyond its limit in bold with a mark that does without
// colour.
func (d Data) told(v, limit float64) (string, look.Style) {
	st := look.Style{Size: look.Small, Color: look.Ink, Align: 1}
	text := look.Number(v)
	switch {
	case math.IsInf(v, 0):
		st.Bold = true
	case limit > 0 && v > limit:
		st.Bold = true
		text = "over  " + text
	}
	return text, st
}

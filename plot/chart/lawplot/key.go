package lawplot

import (
	"math"

	"gonum.org/v1/plot/vg"

	"seamrail/motion/law"
	"seamrail/plot/internal/style"
)

// key writes a line a law: its stroke, its name and its greatest speed,
// acceleration and jerk, with a word on those beyond the rig.
func (d Data) key(s *style.Sheet, y vg.Length) {
	small := style.Style{Size: style.Small, Color: style.Muted, Align: 1}
	columns := []vg.Length{0, 242, 328, width - style.Edge}
	head := style.Style{Size: style.Small, Color: style.Muted, Align: -1}
	s.Text(style.Edge, y-style.Small, "greatest, in "+d.Unit+" and s", head)
	for _, r := range all[1:] {
		s.Text(columns[r.order], y-style.Small, r.name, small)
	}
	y -= 18
	s.Line(style.Edge, y, width-style.Edge, y, 0.8, style.Faint)
	for i, l := range d.Laws {
		y -= keyRow
		s.Line(style.Edge, y+4, style.Edge+34, y+4, 2.2, style.Hue(i), style.Dash(i)...)
		s.Text(style.Edge+42, y, style.Fit(l.Name(), 118, style.Style{Size: style.Body}),
			style.Style{Size: style.Body, Color: style.Ink, Align: -1})
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
func (d Data) told(v, limit float64) (string, style.Style) {
	st := style.Style{Size: style.Small, Color: style.Ink, Align: 1}
	text := style.Number(v)
	switch {
	case math.IsInf(v, 0):
		st.Bold = true
	case limit > 0 && v > limit:
		st.Bold = true
		text = "over  " + text
	}
	return text, st
}

package compare

import (
	"math"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/look"
)

// key writes a line a law: its stroke, its name and its greatest speed,
// acceleration and jerk, with a word on those beyond the rig.
func (d Data) key(s *look.Sheet, y vg.Length, rows []row) {
	small := look.Style{Size: look.Small, Color: look.Muted, Align: 1}
	columns := []vg.Length{0, 250, 330, width - look.Edge}
	rows = all
	head := look.Style{Size: look.Small, Color: look.Muted, Align: -1}
	s.Text(look.Edge, y-look.Small, "greatest", head)
	for _, r := range rows[1:] {
		s.Text(columns[r.order], y-look.Small, r.name+", "+d.Unit+r.per, small)
	}
	y -= 18
	s.Line(look.Edge, y, width-look.Edge, y, 0.8, look.Faint)
	for i, l := range d.Laws {
		y -= keyRow
		s.Line(look.Edge, y+4, look.Edge+34, y+4, 2.2, look.Hue(i), look.Dash(i)...)
		s.Text(look.Edge+42, y, look.Fit(l.Name(), 118, look.Style{Size: look.Body}),
			look.Style{Size: look.Body, Color: look.Ink, Align: -1})
		for _, r := range rows[1:] {
			v := r.peak(l.Peaks()) * d.scale(r.order)
			text, st := d.told(v, d.limit(r.order))
			s.Text(columns[r.order], y, text, st)
		}
	}
}

// told prints a peak; beyond its limit in bold with a mark that does without
// colour.
func (d Data) told(v, limit float64) (string, look.Style) {
	st := look.Style{Size: look.Small, Color: look.Ink, Align: 1}
	text := look.Number(v)
	if limit > 0 && (v > limit || math.IsInf(v, 0)) {
		st.Bold = true
		text = "over  " + text
	}
	return text, st
}

package figure

import (
	"strconv"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/look"
)

// clear is the least room between two frame marks, in points: closer marks
// would run into a grey bar.
const clear vg.Length = 2

// frameScale draws the captured frames above the panels: a mark for each
// frame where there is room, and a number at round ones.
func (p *page) frameScale() {
	p.y -= scaleTop
	pan := p.panel(0)
	base := p.y + 4
	s, n := p.sheet, p.d.Captured
	each := p.d.OnScreen / float64(n)
	step := frameStep(n)
	if room := (pan.Right - pan.Left) / vg.Length(n); room >= clear {
		for k := range n + 1 {
			x := pan.X(float64(k) * each)
			s.Line(x, base, x, base+3, 0.6, look.Rule)
		}
	}
	s.Line(pan.Left, base, pan.Right, base, 0.8, look.Rule)
	st := look.Style{Size: look.Small, Color: look.Muted}
	for k := int64(0); k < n && n-k >= step*2/3; k += step {
		x := pan.X(float64(k) * each)
		s.Line(x, base, x, base+6, 1, look.Muted)
		s.Text(x, base+10, strconv.FormatInt(k, 10), st)
	}
	s.Line(pan.Right, base, pan.Right, base+6, 1, look.Muted)
	st.Align = 0
	st.Color = look.Ink
	s.Text(pan.Right, base+10, "seam", st)
	st.Align, st.Color = -1, look.Muted
	s.Text(edge, base+10, "frame", st)
}

// frameStep chooses how many frames lie between two numbers: the least step
// that gives at most six, and one that divides the loop where there is one
// nearly as small.
func frameStep(n int64) int64 {
	var first int64
	for power := int64(1); ; power *= 10 {
		for _, m := range []int64{1, 2, 4, 5, 6, 8} {
			step := m * power
			if power == 1 && m > 2 || power > 1 {
				if alt := 12 * step / 10; n%alt == 0 && alt > 2 && n/alt <= 6 && first == 0 {
					return alt
				}
			}
			switch {
			case n/step > 6:
			case n%step == 0:
				return step
			case first == 0:
				first = step
			case step >= 2*first:
				return first
			}
		}
	}
}

// timeScale draws on-screen seconds below the panels.
func (p *page) timeScale() {
	pan := p.panel(0)
	y := p.y + axisGap + rowGap - 5
	s := p.sheet
	st := look.Style{Size: look.Small, Color: look.Muted}
	s.Line(pan.Left, y, pan.Right, y, 0.8, look.Rule)
	for _, t := range look.Ticks(0, p.d.OnScreen, 6, false) {
		x := pan.X(t.Value)
		s.Line(x, y, x, y-4, 1, look.Muted)
		s.Text(x, y-6-look.Small, t.Label, st)
	}
	s.Text((pan.Left+pan.Right)/2, y-22-look.Small, "seconds on screen", st)
	p.y -= scaleBelow
}

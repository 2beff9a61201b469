package motionplot

import (
	"strconv"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
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
			s.Line(x, base, x, base+3, 0.6, style.Rule)
		}
	}
	s.Line(pan.Left, base, pan.Right, base, 0.8, style.Rule)
	st := style.Style{Size: style.Small, Color: style.Muted}
	for k := int64(0); k < n && n-k >= step*2/3; k += step {
		x := pan.X(float64(k) * each)
		s.Line(x, base, x, base+6, 1, style.Muted)
		s.Text(x, base+10, strconv.FormatInt(k, 10), st)
	}
	s.Line(pan.Right, base, pan.Right, base+6, 1, style.Muted)
	st.Align = 0
	st.Color = style.Ink
	s.Text(pan.Right, base+10, "seam", st)
	st.Align, st.Color = -1, style.Muted
	s.Text(edge, base+10, "frame", st)
}

// roundSteps are numbers of frames that people count by; from 10 on they
// repeat ten times larger.
var roundSteps = []int64{1, 2, 4, 5, 6, 8, 10, 12, 15, 20, 24, 25, 30, 40, 48, 50, 60, 80}

// frameStep chooses how many frames lie between two numbers: the least round
// step that cuts n frames into at most six, or one less than twice as large if
// that divides n.
func frameStep(n int64) int64 {
	var least int64
	for power, steps := int64(1), roundSteps; ; power, steps = 10*power, roundSteps[6:] {
		for _, step := range steps {
			step *= power
			switch {
			case n/step > 6:
			case n%step == 0:
				return step
			case least == 0:
				least = step
			case step >= 2*least:
				return least
			}
		}
	}
}

// timeScale draws on-screen seconds below the panels.
func (p *page) timeScale() {
	pan := p.panel(0)
	y := p.y + axisGap + rowGap - 5
	s := p.sheet
	st := style.Style{Size: style.Small, Color: style.Muted}
	s.Line(pan.Left, y, pan.Right, y, 0.8, style.Rule)
	for _, t := range style.Ticks(0, p.d.OnScreen, 6, false) {
		x := pan.X(t.Value)
		s.Line(x, y, x, y-4, 1, style.Muted)
		s.Text(x, y-6-style.Small, t.Label, st)
	}
	s.Text((pan.Left+pan.Right)/2, y-22-style.Small, "seconds on screen", st)
	p.y -= scaleBelow
}

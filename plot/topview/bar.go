package topview

import (
	"fmt"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
)

// barPaper is how long, in mm on paper, the scale bar is at most: a short
// ruler can check it.
const barPaper = 100.0

// barInset is the same where room is short.
const barInset = 50.0

// barSteps is into how many parts it is divided.
const barSteps = 5

// barSlack lets a step through that is just as long as may be, but for rounding.
const barSlack = 1e-9

// bar draws the scale bar with its foot at y, and says beside it how to print.
func (p *page) bar(y vg.Length) {
	most := barPaper
	if p.d.Inset {
		most = barInset
	}
	step := barStep(p.scale, most)
	s := p.sheet
	for k := range barSteps {
		x0, x1 := edge+p.scale.Length(step*float64(k)), edge+p.scale.Length(step*float64(k+1))
		c := style.Ink
		if k%2 == 1 {
			c = style.Paper
		}
		s.Fill(x0, y, x1, y+4, c)
		s.Line(x0, y, x1, y, 0.7, style.Ink)
		s.Line(x0, y+4, x1, y+4, 0.7, style.Ink)
	}
	small := style.Style{Size: noteSize, Color: style.Ink}
	for k := range barSteps + 1 {
		x := edge + p.scale.Length(step*float64(k))
		s.Line(x, y, x, y+6, 0.7, style.Ink)
		s.Text(x, y+9, style.Number(step*float64(k)), small)
	}
	end := edge + p.scale.Length(step*barSteps)
	x := end + 10 + s.Text(end+16, y+9, "mm", noteStyle) + 18
	s.Text(x, y+9, p.scaleWords(), boldStyle)
	check := fmt.Sprintf("Print at 100 %%: the bar is then %s mm.", style.Number(step*barSteps*float64(p.scale)))
	s.Text(x, y-3, check, noteStyle)
}

func (p *page) scaleWords() string {
	if p.stock == "" {
		return "Scale " + p.scale.String()
	}
	return "Scale " + p.scale.String() + " on " + p.stock
}

// barStep is the largest round step, in mm of the scene, whose bar is at most
// so many mm long on paper.
func barStep(s Scale, paper float64) float64 {
	most := paper / float64(s) / barSteps
	best := 0.0
	for power := 1e-3; power < 1e9; power *= 10 {
		for _, m := range []float64{1, 2, 5} {
			if m*power <= most*(1+barSlack) {
				best = m * power
			}
		}
	}
	return best
}

package reachplot

import (
	"cmp"
	"slices"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
)

func (d Data) ground(pan style.Panel) {
	pan.GridX(style.Ticks(0, pan.X1, 5, d.Unit == "deg"), true)
	pan.GridY(style.Ticks(0, pan.Y1, 7, false))
	s := pan.Sheet
	s.Line(pan.Left, pan.Bottom, pan.Right, pan.Bottom, 1, style.Rule)
	s.Text((pan.Left+pan.Right)/2, pan.Bottom-20-style.Small, "travel, "+d.Unit,
		style.Style{Size: style.Body, Color: style.Ink})
	if d.Whole > 0 && d.Whole <= pan.X1 {
		x := pan.X(d.Whole)
		s.Line(x, pan.Bottom, x, pan.Top, 1, style.Ink, 3, 3)
		s.Text(x-4, pan.Bottom+6, "end of travel", style.Style{Size: style.Small, Color: style.Ink, Align: 1})
	}
}

// labels names each curve at its end, moved apart where ends are close, with a
// thin line from the end to its name.
func (d Data) labels(pan style.Panel) {
	order := make([]int, 0, len(d.Curves))
	for i, c := range d.Curves {
		if len(c.Screen) > 0 {
			order = append(order, i)
		}
	}
	end := func(i int) float64 { return float64(pan.Y(d.Curves[i].Screen[len(d.Curves[i].Screen)-1])) }
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(end(a), end(b)) })
	wanted := make([]float64, len(order))
	for k, i := range order {
		wanted[k] = end(i)
	}
	placed := style.Spread(wanted, labelGap, float64(pan.Bottom)+6, float64(pan.Top))
	for k, i := range order {
		c := d.Curves[i]
		x := pan.X(c.Travel[len(c.Travel)-1])
		y := vg.Length(placed[k])
		pan.Sheet.Line(x+2, vg.Length(wanted[k]), pan.Right+14, y, 0.7, style.Hue(i))
		st := style.Style{Size: style.Small, Color: style.TextHue(i), Align: -1}
		pan.Sheet.Text(pan.Right+17, y-style.Small*0.35, style.Fit(c.Name, right-20, st), st)
	}
}

func (d Data) mark(pan style.Panel) {
	if d.Shot == nil {
		return
	}
	at := pan.At(d.Shot.Travel, d.Shot.Screen)
	pan.Sheet.Dot(at, 4, style.Ink)
	st := style.Style{Size: style.Small, Bold: true, Color: style.Ink}
	name := style.Fit(d.Shot.Name, 150, st)
	half := style.TextWidth(name, st) / 2
	x := min(max(at.X, pan.Left+half+4), pan.Right-half-4)
	pan.Sheet.Text(x, at.Y+9, name, st)
}

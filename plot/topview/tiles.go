package topview

import (
	"fmt"
	"io"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
)

// maxTiles is how many sheets a drawing is cut into at most: what covers a
// table of a metre by a metre and a half in A4.
const maxTiles = 24

// tiling is a drawing that is larger than its paper.
type tiling struct {
	layout
	sheet         Paper
	across, along int // how many sheets lie side by side, and one above the other
}

// newTiling finds the fewest sheets that hold the scene at a scale.
func newTiling(d Data, p Paper, s Scale) (tiling, bool) {
	size := extent(d.Above)
	for n := 2; n <= maxTiles; n++ {
		for across := 1; across <= n; across++ {
			if n%across != 0 {
				continue
			}
			for _, sheet := range []Paper{p, p.across()} {
				t := tiling{laid(d, sheet.times(across, n/across)), sheet, across, n / across}
				if t.fits(size, s) {
					t.place(size, s)
					t.stock = fmt.Sprintf("%d sheets of %s", n, p.Name)
					return t, true
				}
			}
		}
	}
	return tiling{}, false
}

// times is the paper that so many sheets make, cut at their edges and joined.
func (p Paper) times(across, along int) Paper {
	inner := func(mm float64) float64 { return mm - 2*edgeMM }
	return Paper{p.Name, inner(p.Width) * float64(across), inner(p.Height) * float64(along)}
}

// draw writes the sheets as the pages of a PDF, row by row from the top left.
func (t tiling) draw(w io.Writer, d Data) error {
	width, height := t.sheet.sheet()
	s, err := style.NewSheet("pdf", width, height)
	if err != nil {
		return err
	}
	for k := range t.across * t.along {
		if k > 0 {
			s.NextPage()
		}
		t.tile(s, d, k%t.across, k/t.across)
	}
	_, err = s.WriteTo(w)
	return err
}

// tile draws the sheet in a column and a row, row 0 at the top.
func (t tiling) tile(s *style.Sheet, d Data, column, row int) {
	in := box{edge, edge, s.Width - edge, s.Height - edge}
	s.Push()
	s.Translate(vg.Point{
		X: in.x0 - (in.x1-in.x0)*vg.Length(column),
		Y: in.y0 - (in.y1-in.y0)*vg.Length(t.along-1-row),
	})
	(&page{layout: t.layout, sheet: s, d: d}).compose()
	s.Pop()
	for _, margin := range []box{
		{0, 0, s.Width, in.y0}, {0, in.y1, s.Width, s.Height}, {0, 0, in.x0, s.Height}, {in.x1, 0, s.Width, s.Height},
	} {
		s.Fill(margin.x0, margin.y0, margin.x1, margin.y1, style.Paper)
	}
	s.Polyline([]vg.Point{{X: in.x0, Y: in.y0}, {X: in.x1, Y: in.y0}, {X: in.x1, Y: in.y1}, {X: in.x0, Y: in.y1}, {X: in.x0, Y: in.y0}}, 0.5, style.Muted)
	st := noteStyle
	st.Color = style.Muted
	s.Text(edge, edge/2-noteSize/2, fmt.Sprintf("Row %d of %d, column %d of %d. Cut along the lines and join the sheets edge to edge.",
		row+1, t.along, column+1, t.across), st)
}

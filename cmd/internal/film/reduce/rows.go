package reduce

import (
	"math"

	"seamrail/motion/footage"
)

// Rows takes the rows of one frame after another and makes of them what comes out.
type Rows struct {
	grid Grid
	into *footage.Gray
	sum  []float32 // of one row, across
	cols []span    // of each pixel of a row; nil where the step is whole
}

// span is what a pixel covers along a row or a column: pixels first to last, of which the
// outer ones count with their share.
type span struct {
	first, last int
	head, tail  float32 // the shares of first and last; tail is 0 where they are one
}

// NewRows returns the taker of rows for a grid.
func NewRows(g Grid) *Rows {
	r := &Rows{grid: g, sum: make([]float32, g.Width)}
	if g.Step != math.Trunc(g.Step) {
		r.cols = make([]span, g.Width)
		for i := range r.cols {
			r.cols[i] = spanOf(i, g.Step, g.Region.Width)
		}
	}
	return r
}

// spanOf is that of pixel i of so many recorded ones. Where rounding has it end beyond the
// last, it ends there.
func spanOf(i int, step float64, size int) span {
	from, to := float64(i)*step, min(float64(i+1)*step, float64(size))
	first, last := int(from), int(math.Ceil(to))-1
	if first == last {
		return span{first, last, float32(to - from), 0}
	}
	return span{first, last, float32(float64(first+1) - from), float32(to - float64(last))}
}

// Begin says where the next frame goes. Its memory is used again where it suffices.
func (r *Rows) Begin(into *footage.Gray) {
	r.grid.fit(into)
	r.into = into
}

// Row takes row y of the frame as it was recorded, all of its width. Each row comes once,
// in any order.
func (r *Rows) Row(y int, row []float32) {
	y -= r.grid.Region.Y
	if y < 0 || y >= r.grid.Region.Height {
		return
	}
	row = row[r.grid.Region.X : r.grid.Region.X+r.grid.Region.Width]
	r.across(row)
	step := r.grid.Step
	for at := int(float64(y) / step); at < r.grid.Height && float64(at)*step < float64(y+1); at++ {
		share := min(float64(y+1), float64(at+1)*step) - max(float64(y), float64(at)*step)
		r.down(at, float32(max(share, 0)/(step*step)))
	}
}

// down adds what a row has gathered to one that comes out, by its share of the area.
func (r *Rows) down(at int, share float32) {
	into := r.into.Row(at)
	for i, v := range r.sum[:len(into)] {
		into[i] += share * v
	}
}

// across sums a row over what each pixel covers of it.
func (r *Rows) across(row []float32) {
	switch {
	case r.cols != nil:
		r.shares(row)
	case r.grid.Step == 1:
		copy(r.sum, row)
	case r.grid.Step == 2: // the usual one, and the one that has to be quick
		for i := range r.sum {
			r.sum[i] = row[2*i] + row[2*i+1]
		}
	default:
		n := int(r.grid.Step)
		for i := range r.sum {
			r.sum[i] = total(row[i*n : (i+1)*n])
		}
	}
}

func (r *Rows) shares(row []float32) {
	for i, c := range r.cols {
		sum := c.head * row[c.first]
		if c.last > c.first {
			sum += total(row[c.first+1:c.last]) + c.tail*row[c.last]
		}
		r.sum[i] = sum
	}
}

func total(row []float32) (sum float32) {
	for _, v := range row {
		sum += v
	}
	return sum
}

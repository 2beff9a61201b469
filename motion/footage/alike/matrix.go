package alike

import (
	"context"
	"fmt"
	"math"
)

const (
	// maxSide bounds a matrix: no figure has more pixels across.
	maxSide = 2000
	// fineFrames is up to how many frames a matrix is of the middle level; of more the
	// coarsest shows as much, in a tenth of the time.
	fineFrames = 3000
)

// Likeness is how alike all frames are to all others, as a square for a figure.
type Likeness struct {
	Side   int
	Values []float32 // row by row: 1 where two frames are the same, 0 where they are as unlike as any here
	Marks  []Mark    // the loops that were found, in order
}

// Mark is where a run of loops lies in the square, from its first loop to its last, in cells:
// a loop of frames i to j-1 is at (j, i).
type Mark struct{ FromX, FromY, ToX, ToY float64 }

// Likeness compares all frames with all others. A cell stands for many pairs, and tells of
// the most alike of them, by a coarse sketch. It fails if the side is not 1 to 2000, or with
// the error of ctx. A side beyond the number of frames is that number.
func (s *Sketches) Likeness(ctx context.Context, side int, found Found) (Likeness, error) {
	if side < 1 || side > maxSide {
		return Likeness{}, fmt.Errorf("a square of %d cells a side cannot be drawn; 1 to %d can", side, maxSide)
	}
	if s.Len() == 0 {
		return Likeness{}, nil
	}
	side = min(side, s.Len())
	out := Likeness{Side: side, Values: make([]float32, side*side)}
	level := s.drawn()
	each(workers(), side, func(_, y int) {
		for x := y; x < side && ctx.Err() == nil; x++ {
			d := nearest(level, s.part(y, side), s.part(x, side))
			out.Values[y*side+x], out.Values[x*side+y] = d, d
		}
	})
	out.scale()
	for _, r := range found.Runs {
		out.Marks = append(out.Marks, s.mark(r, side))
	}
	return out, ctx.Err()
}

// drawn is the level that a square of all frames is made of.
func (s *Sketches) drawn() plane {
	if s.Len() > fineFrames {
		return s.levels[0]
	}
	return s.levels[1]
}

// span are frames from..to-1.
type span struct{ from, to int }

// part are the frames for which a row or column of a square stands.
func (s *Sketches) part(k, side int) span {
	return span{k * s.Len() / side, (k + 1) * s.Len() / side}
}

// nearest is the least distance between frames of two spans, as a sum of squares.
func nearest(p plane, rows, columns span) float32 {
	least := float32(math.Inf(1))
	for i := rows.from; i < rows.to; i++ {
		a := p.at(i)
		for j := max(i, columns.from); j < columns.to; j++ {
			least = min(least, squares(a, p.at(j)))
		}
	}
	return least
}

func squares(a, b []float32) (sum float32) {
	b = b[:len(a)]
	for i, v := range a {
		d := b[i] - v
		sum += d * d
	}
	return sum
}

// scale turns sums of squares into likeness.
func (l *Likeness) scale() {
	var greatest float32
	for _, v := range l.Values {
		greatest = max(greatest, v)
	}
	for i, v := range l.Values {
		l.Values[i] = 1
		if greatest > 0 {
			l.Values[i] = 1 - float32(math.Sqrt(float64(v/greatest)))
		}
	}
}

func (s *Sketches) mark(r Run, side int) Mark {
	at := func(frame int) float64 { return float64(frame) * float64(side) / float64(s.Len()) }
	return Mark{at(r.From + r.Length), at(r.From), at(r.To + r.Length), at(r.To)}
}

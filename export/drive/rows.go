package drive

import (
	"fmt"
	"math"
)

// rows is motion as a step player takes it: by how many steps each motor turns
// in each tick. Places are absolute and differences are derived, so that no
// loop is long enough to drift.
type rows struct {
	tick  float64 // s
	at    func(sec float64, steps []int64)
	next  int64 // row to be made
	count int64 // rows there are; < 0 = no end yet
	now   []int64
	then  []int64
}

// newRows returns rows that begin at sec 0 of at.
func newRows(motors int, tick float64, count int64, at func(sec float64, steps []int64)) *rows {
	r := &rows{tick: tick, at: at, count: count, now: make([]int64, motors), then: make([]int64, motors)}
	at(0, r.now)
	return r
}

func (r *rows) left() bool { return r.count < 0 || r.next < r.count }

// row appends the next row to buf.
func (r *rows) row(buf []byte) ([]byte, error) {
	r.next++
	r.at(float64(r.next)*r.tick, r.then)
	for i, to := range r.then {
		d := to - r.now[i]
		if d < math.MinInt8 || d > math.MaxInt8 {
			return buf, fmt.Errorf("%d steps in a tick of %g s; a row holds %d", d, r.tick, math.MaxInt8)
		}
		buf = append(buf, byte(int8(d)))
		r.now[i] = to
	}
	return buf, nil
}

// nearestStep returns the step at a position: the one it is rounded to, as
// everywhere.
func nearestStep(pos, stepsPerUnit float64) int64 { return int64(math.Floor(pos*stepsPerUnit + 0.5)) }

// ticksOf returns how many ticks cover so many seconds. A hair is taken off so
// that a whole number of ticks does not become one more by rounding.
func ticksOf(sec, tick float64) int64 {
	const hair = 1e-6
	return int64(math.Ceil(sec/tick - hair))
}

// between returns the least and the greatest steps of each motor at the ends of the
// rows from one to another.
func (r *rows) between(from, to int64) (low, high []int64) {
	if r.count >= 0 {
		to = min(to, r.count)
	}
	from = max(min(from, to), 0)
	low, high = make([]int64, len(r.now)), make([]int64, len(r.now))
	at := make([]int64, len(r.now))
	for k := from; k <= to; k++ {
		r.at(float64(k)*r.tick, at)
		for i, n := range at {
			if k == from {
				low[i], high[i] = n, n
			}
			low[i], high[i] = min(low[i], n), max(high[i], n)
		}
	}
	return low, high
}

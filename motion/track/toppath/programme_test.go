package toppath

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/track"
)

// bow is an open curve of three axes, none of them straight, one of which turns
// round on the way.
var bow = curve{3, 2, false, func(s float64, to []track.State) {
	sin, cos := math.Sincos(2 * s)
	to[0] = track.State{Pos: 60 * s, Vel: 60}
	to[1] = track.State{Pos: 20 * sin, Vel: 40 * cos, Acc: -80 * sin}
	to[2] = track.State{Pos: 8 * s * s, Vel: 16 * s, Acc: 16}
}}

// TestAgainstDynamicProgramme finds the least time by trying every pace out of
// many at every node, over the same cells, with limits written out anew. Paces
// in between are missing, so it is a little slower; it is never quicker.
func TestAgainstDynamicProgramme(t *testing.T) {
	const (
		n      = 24
		levels = 500
		// A pace may be half a level off, and with it, in the steepest
		// places, a few percent of the time.
		within = 0.03
	)
	for _, limits := range [][]Limit{
		{{100, 150, 0}, {80, 100, 0}, {50, 60, 0}},
		{{40, 400, 0}, {80, 60, 0}, {10, 60, 0}},
		{{150, 100, 0}, {150, 100, 0}, {150, 14, 0}},
	} {
		got := least(t, bow, limits, n)
		want := programme(bow, limits, n, levels)
		assert.LessOrEqual(t, got, want*(1+1e-9), "%v", limits)
		assert.InEpsilon(t, want, got, within, "%v", limits)
	}
}

// programme is the dynamic programme: the least time from each pace at each node
// to rest at the end.
func programme(p Path, limits []Limit, n, levels int) float64 {
	h := p.Length() / float64(n)
	at := make([][]track.State, n+1)
	top := math.Inf(1)
	for i := range at {
		at[i] = make([]track.State, len(limits))
		p.At(float64(i)*h, at[i])
	}
	for k, l := range limits { // no pace above this is ever possible
		slow := math.Inf(1)
		for i := range at {
			slow = min(slow, math.Abs(at[i][k].Vel))
		}
		top = min(top, l.Speed/slow)
	}
	pace := func(i int) float64 { return top * float64(i) / float64(levels-1) }
	able := func(q []track.State, v, dv float64) bool {
		for k, l := range limits {
			if math.Abs(q[k].Vel*v) > l.Speed || math.Abs(q[k].Acc*v*v+q[k].Vel*dv) > l.Acc {
				return false
			}
		}
		return true
	}
	rest := make([]float64, levels)
	for k := range rest {
		rest[k] = math.Inf(1)
	}
	rest[0] = 0
	for i := n - 1; i >= 0; i-- {
		next := make([]float64, levels)
		for a := range next {
			next[a] = math.Inf(1)
			for b := range rest {
				v, w := pace(a), pace(b)
				if v+w == 0 || math.IsInf(rest[b], 1) {
					continue
				}
				dv := (w*w - v*v) / (2 * h)
				if sec := rest[b] + 2*h/(v+w); sec < next[a] && able(at[i], v, dv) && able(at[i+1], w, dv) {
					next[a] = sec
				}
			}
		}
		rest = next
	}
	return rest[0]
}

package pace

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// The table goes where the plan does, and instants that are told to look the same do.
func TestTheTableGoesByThePlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := newDrawing(rapid.Uint64().Draw(t, "seed"))
		sh := d.shape(product{sides: 1})
		p := sh.plan(2)
		tr := newTrack(p)
		at := rapid.Float64Range(0, tr.last).Draw(t, "at")
		for k, a := range tr.moving {
			lo := p.Axes[k].At(0)
			want := (p.Axes[k].At(at/24) - lo) / a.travel
			assert.InDelta(t, want, tr.at(a, at), 1e-4)
		}
		if m, ok := tr.mirror(at); ok {
			assert.Greater(t, m.to, at)
			assert.True(t, tr.same(at, m.to))
			assert.Less(t, tr.speed(tr.moving[0], at)*tr.speed(tr.moving[0], m.to), 0.0)
		}
	})
}

// Edges are where rests end and begin.
func TestEdges(t *testing.T) {
	p, _ := fern(2)
	want := []edge{{0, true}, {60, false}, {72, true}, {128, false}, {144, true}, {204, false}, {216, true}, {272, false}}
	got := newTrack(p).edges()
	if !assert.Len(t, got, len(want)) {
		return
	}
	for i, e := range got {
		assert.InDelta(t, want[i].frame, e.frame, 0.25)
		assert.Equal(t, want[i].sets, e.sets)
	}
}

// A lateness between two edges is that of both, by how near they are.
func TestLatenessIsEven(t *testing.T) {
	l := lateness{at: []float64{0, 10, 30}, late: []float64{1, 3, -1}}
	for at, want := range map[float64]float64{-5: 1, 0: 1, 5: 2, 10: 3, 20: 1, 30: -1, 99: -1} {
		assert.InDelta(t, want, l.of(at), 1e-12, "%v", at)
	}
}

// Moves under their own law are the plan.
func TestMovesUnderTheirOwnLaw(t *testing.T) {
	p, _ := fern(2)
	tr := newTrack(p)
	assert.Less(t, tr.differs(tr.under(mustLaw("3-4-5"))), sameLaw)
	assert.Greater(t, tr.differs(tr.under(mustLaw("harmonic"))), sameLaw)
}

// A mean of many with a few that are wild is that of the many, and its uncertainty that of theirs.
func TestTheMeanIsRobust(t *testing.T) {
	d := newDrawing(6)
	var off float64
	const times, count = 200, 40
	var sure float64
	for range times {
		var v, w []float64
		for i := range count {
			x := 2 + d.NormFloat64()
			if i%10 == 0 {
				x += 100
			}
			v, w = append(v, x), append(w, 1)
		}
		n := mean(v, w)
		off, sure = off+(n.Value-2)*(n.Value-2), sure+n.Sure*n.Sure
	}
	assert.InDelta(t, 1, math.Sqrt(off/sure), 0.5)
	assert.True(t, math.IsInf(mean([]float64{1}, []float64{1}).Sure, 1))
}

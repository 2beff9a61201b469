package ontime

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// takes is how long a block of d takes at a nominal speed f and an acceleration a, from u
// to w, by the textbook's trapezoid of speed: up, level, down. Ends that are faster than
// f are at f.
func takes(d, a, f, u, w float64) float64 {
	u, w = math.Min(u, f), math.Min(w, f)
	up, down := (f*f-u*u)/(2*a), (f*f-w*w)/(2*a) // of the way, by v² = u² + 2as
	return (f-u)/a + (d-up-down)/f + (f-w)/a
}

// solved is a chain whose speeds have been found.
func solved(c chain) chain {
	c.solve()
	return c
}

// ends are the speeds with which block i begins and ends, by its neighbours.
func (c chain) endsOf(i int) (in, out float64) {
	n := len(c.links)
	before, after := c.before, c.after
	leave := c.leave
	if i > 0 {
		before = c.links[i-1].speed
	} else if c.ring {
		before = c.links[n-1].speed
	}
	if i+1 < n {
		after, leave = c.links[i+1].speed, c.links[i+1].enter
	} else if c.ring {
		after, leave = c.links[0].speed, c.links[0].enter
	}
	return math.Min(before, c.links[i].enter), math.Min(after, leave)
}

// TestEachBlockTakesItsTime between neighbours that are slower or faster, from rest to
// rest, through corners, and round a ring whose first follows on its last: what a
// controller makes of the speeds that are found is what was asked for. Were the ring no
// ring, its first block would leave from rest and be late in every round. A block of
// which a slower neighbour turns out to be the faster is off by some ten-thousandths.
func TestEachBlockTakesItsTime(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(2, 9).Draw(rt, "blocks")
		c := chain{ring: rapid.Bool().Draw(rt, "ring"), leave: math.Inf(1)}
		pace := rapid.Float64Range(20, 60).Draw(rt, "mm/s")
		for i := range n {
			// Near enough to each other for a twentieth of a second at 12 000 mm/s2.
			l := link{acc: 12_000, target: 0.05, cap: 1000, enter: math.Inf(1)}
			l.length = l.target * pace * rapid.Float64Range(0.8, 1.25).Draw(rt, "share")
			if i > 0 && rapid.IntRange(0, 4).Draw(rt, "corner") == 0 {
				l.enter = 0.6 * pace
			}
			c.links = append(c.links, l)
		}
		if !c.ring {
			c.before, c.after = rapid.SampledFrom([]float64{0, pace, 3 * pace}).Draw(rt, "before"), rapid.SampledFrom([]float64{0, pace, 3 * pace}).Draw(rt, "after")
		}
		if c.ring && rapid.Bool().Draw(rt, "a corner at the seam") {
			c.links[0].enter = 0.5 * pace
		}
		got := solved(c)
		for i, l := range got.links {
			in, out := got.endsOf(i)
			require.InEpsilon(rt, 0.05, takes(l.length, l.acc, l.speed, in, out), 0.003, "block %d of %d: %+v", i, n, got)
		}
	})
}

// TestASpeedForTheTime: none, one or both ends slower than the block.
func TestASpeedForTheTime(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		l := link{acc: rapid.Float64Range(50, 5000).Draw(rt, "acc"), target: rapid.Float64Range(0.01, 1).Draw(rt, "s")}
		in, out := rapid.Float64Range(0, 100).Draw(rt, "in"), rapid.Float64Range(0, 100).Draw(rt, "out")
		want := rapid.Float64Range(1, 200).Draw(rt, "speed") // from which the way is worked out
		u, w := math.Min(in, want), math.Min(out, want)
		up, down := (want*want-u*u)/(2*l.acc), (want*want-w*w)/(2*l.acc)
		level := l.target - (want-u)/l.acc - (want-w)/l.acc
		if level < 0 {
			rt.Skip("no time for it")
		}
		l.length = up + down + level*want
		require.InEpsilon(rt, want, l.pace(in, out), 1e-6)
		l.speed = want
		require.InEpsilon(rt, l.target, l.seconds(in, out), 1e-9)
	})
}

// TestTheSmallerRoot: x² - 3x + 2 is 0 at 1 and 2, 2x² - 9x + 4 at a half and 4; x² - 4x + 4
// touches it at 2, and x² - 4x + 5 comes nearest to it there.
func TestTheSmallerRoot(t *testing.T) {
	for _, x := range [][4]float64{{1, 3, 2, 1}, {2, 9, 4, 0.5}, {1, 4, 4, 2}, {1, 4, 5, 2}} {
		assert.InDelta(t, x[3], smaller(x[0], x[1], x[2]), 1e-12, "%v", x)
	}
}

// TestNoSpeedForTheTime: a block that is too long for its time even with all of its
// acceleration goes as comes nearest to it.
func TestNoSpeedForTheTime(t *testing.T) {
	for _, ends := range [][2]float64{{0, 0}, {0, 1e9}, {1e9, 0}, {3, 7}} {
		l := link{acc: 100, target: 0.1, length: 50}
		f := l.pace(ends[0], ends[1])
		// How much too long the way is at a speed, with ends that are slower than it.
		miss := func(f float64) float64 {
			sum := l.length - f*l.target
			for _, end := range ends {
				if end < f {
					sum += (f - end) * (f - end) / (2 * l.acc)
				}
			}
			return math.Abs(sum)
		}
		require.Positive(t, f)
		for _, other := range []float64{0.5, 0.9, 0.99, 1.01, 1.1, 2} {
			assert.Less(t, miss(f), miss(f*other), "ends %v, speed %g", ends, f)
		}
	}
}

// TestWhatABlockCannotMakeUp goes to the neighbour that is not found yet, so that both
// together take their time, but no more than half of what that has.
func TestWhatABlockCannotMakeUp(t *testing.T) {
	wide := math.Inf(1)
	for _, x := range []struct {
		name  string
		links []link
		ring  bool
	}{
		// The slow one leaves rest at 200 mm/s2: in 0.05 s it has come 0.25 mm and is 0.15 short.
		{"to the one after", []link{{length: 0.4, acc: 200, target: 0.05, cap: wide}, {length: 2, acc: 1e6, target: 0.05, cap: wide, enter: wide}}, false},
		{"to the one before", []link{{length: 2, acc: 1e6, target: 0.05, cap: wide}, {length: 0.4, acc: 200, target: 0.05, cap: wide, enter: wide}}, false},
		{"round the ring", []link{{length: 2, acc: 1e6, target: 0.05, cap: wide, enter: wide}, {length: 1, acc: 1e6, target: 0.05, cap: wide, enter: wide}, {length: 0.4, acc: 200, target: 0.05, cap: wide, enter: 0}}, true},
		{"round the ring, to the one before", []link{{length: 0.4, acc: 200, target: 0.05, cap: wide, enter: 0}, {length: 0.3, acc: 1e6, target: 0.05, cap: wide, enter: wide}, {length: 0.9, acc: 1e6, target: 0.05, cap: wide, enter: wide}}, true},
		{"one that is as fast as it can", []link{{length: 1, acc: 1e6, target: 0.05, cap: 19, enter: 0}, {length: 1.1, acc: 1e6, target: 0.05, cap: wide, enter: wide}}, false},
	} {
		c := chain{links: x.links, ring: x.ring, leave: wide}
		c.solve()
		sum, want := 0.0, 0.05*float64(len(x.links))
		for i, l := range c.links {
			in, out := c.endsOf(i)
			sum += takes(l.length, l.acc, l.speed, in, out)
		}
		assert.InDelta(t, want, sum, 1e-4, "%s: %+v", x.name, c)
	}
	// Beyond a rest, or from one end of a row to the other, nothing is handed on.
	apart := chain{links: []link{{length: 0.4, acc: 200, target: 0.05, cap: wide}, {target: 0.3}, {length: 2, acc: 1e6, target: 0.05, cap: wide, enter: wide}}, leave: wide}
	apart.solve()
	assert.Equal(t, []float64{0.05, 0.3, 0.05}, []float64{apart.links[0].target, apart.links[1].target, apart.links[2].target})
	// Ten times too long: the neighbour gives half of its time and no more.
	c := chain{links: []link{{length: 1, acc: 1e6, target: 0.05, cap: 2}, {length: 1.1, acc: 1e6, target: 0.05, cap: wide, enter: wide}}, leave: wide}
	c.solve()
	assert.Equal(t, 0.025, c.links[1].target)
}

// TestARestIsRest: a dwell in a chain is left from rest and come to at rest, has no speed
// itself, and nothing is handed to it.
func TestARestIsRest(t *testing.T) {
	wide := math.Inf(1)
	c := chain{leave: wide, links: []link{
		{length: 2, acc: 2000, target: 0.1, cap: wide, enter: wide}, {target: 0.3}, {length: 3, acc: 2000, target: 0.1, cap: 30.5, enter: wide},
	}}
	c.before, c.after = 40, 50
	c.solve()
	assert.Zero(t, c.links[1].speed)
	assert.Equal(t, 0.3, c.links[1].target)
	assert.InEpsilon(t, 0.1, takes(2, 2000, c.links[0].speed, 40, 0), 1e-9)
	assert.Equal(t, 30.5, c.links[2].speed, "no faster than it can")
	in, out := c.limits(0)
	assert.Equal(t, [2]float64{40, 0}, [2]float64{in, out})
	in, out = c.limits(2)
	assert.Equal(t, [2]float64{0, 50}, [2]float64{in, out})
}

// TestWhereAChainBeginsAndEnds: as fast as what is beside it and the corners allow, and
// once round where it is a ring.
func TestWhereAChainBeginsAndEnds(t *testing.T) {
	c := chain{before: 11, after: 12, leave: 13, links: []link{{length: 1, enter: 9, speed: 5}, {length: 1, enter: 8, speed: 7}, {length: 1, enter: 6, speed: 10}}}
	for _, x := range []struct {
		ring                 bool
		i                    int
		before, after, leave float64
		in, out              float64
	}{
		{false, 0, 11, 12, 13, 9, 7}, {false, 0, 3, 12, 13, 3, 7}, {false, 1, 11, 12, 13, 5, 6}, {false, 2, 11, 12, 13, 6, 12}, {false, 2, 11, 14, 13, 6, 13},
		{true, 0, 3, 3, 3, 9, 7}, {true, 1, 3, 3, 3, 5, 6}, {true, 2, 3, 3, 3, 6, 5},
	} {
		c.ring, c.before, c.after, c.leave = x.ring, x.before, x.after, x.leave
		in, out := c.limits(x.i)
		assert.Equal(t, [2]float64{x.in, x.out}, [2]float64{in, out}, "%+v", x)
	}
	c.ring = true
	c.links[0].enter, c.links[2].speed = 20, 0
	in, _ := c.limits(0)
	assert.Equal(t, 20.0, in, "what is not found yet does not matter")
	c.links[2].length = 0
	in, _ = c.limits(0)
	assert.Zero(t, in, "a dwell does")
	c.links[0].enter = 2
	_, out := c.limits(2)
	assert.Equal(t, 2.0, out, "nor does it leave faster than the corner at the seam")
}

package toppath

import (
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/plan/sample/many"
	"seamrail/motion/track"
)

// waves is a closed path of sines and cosines, an axis after the other.
func waves(coefficients [][]float64) Path {
	return curve{len(coefficients), 1, true, func(s float64, to []track.State) {
		for i, c := range coefficients {
			to[i] = track.State{}
			for k := 0; k+1 < len(c); k += 2 {
				w := 2 * math.Pi * float64(k/2+1)
				sin, cos := math.Sincos(w * s)
				to[i].Pos += c[k]*sin + c[k+1]*cos
				to[i].Vel += w * (c[k]*cos - c[k+1]*sin)
				to[i].Acc -= w * w * (c[k]*sin + c[k+1]*cos)
				to[i].Jerk -= w * w * w * (c[k]*cos - c[k+1]*sin)
			}
		}
	}}
}

func numbers(t *testing.T, text string) []float64 {
	var out []float64
	for _, f := range strings.Fields(text) {
		v, err := strconv.ParseFloat(f, 64)
		require.NoError(t, err)
		out = append(out, v)
	}
	return out
}

const (
	// withinBest is how near to the best that was found from outside nearly all paces have
	// to come, and withinAll how near all: where a single axis all but rests half way, a
	// quicker pace is known that is not found.
	withinBest, withinAll = 1.03, 1.15
	// coarser is by how much that may be slower than what is found here: it holds limits
	// at 600 places alone, and takes slopes from differences.
	coarser = 0.01
)

// TestAgainstPacesFoundFromOutside holds the least times against those of a sequence of
// linear programmes by a general-purpose solver: testdata/reference/quickest_paces.py.
func TestAgainstPacesFoundFromOutside(t *testing.T) {
	many.Long(t)
	data, err := os.ReadFile("../../../testdata/reference/quickest_paces.tsv")
	require.NoError(t, err)
	var ratios, before []float64
	for line := range strings.Lines(string(data)) {
		f := strings.Split(strings.TrimSpace(line), "\t")
		if strings.HasPrefix(line, "#") || len(f) < 4 {
			continue
		}
		var limits []Limit
		for l := range slices.Chunk(numbers(t, f[1]), 3) {
			limits = append(limits, Limit{l[0], l[1], l[2]})
		}
		var coefficients [][]float64
		for _, c := range strings.Split(f[2], ";") {
			coefficients = append(coefficients, numbers(t, c))
		}
		best := numbers(t, f[3])[0]
		path := waves(coefficients)
		s, err := New(path, limits)
		require.NoError(t, err)
		checkLimits(t, s, limits)
		ratios = append(ratios, s.Seconds()/best)
		before = append(before, smoothed(t, path, limits)/best)
		assert.LessOrEqual(t, s.Seconds(), best*withinAll, line)
		assert.GreaterOrEqual(t, s.Seconds(), best*(1-coarser), line)
	}
	require.Len(t, ratios, 24)
	slices.Sort(ratios)
	slices.Sort(before)
	assert.LessOrEqual(t, ratios[21], withinBest, "of 24 all but two")
	assert.LessOrEqual(t, ratios[12], 1.005, "the median")
	t.Logf("over the best found from outside: %.3f at least, %.3f in the median, %.3f at most; by averaging alone %.3f, %.3f, %.3f",
		ratios[0], ratios[12], ratios[23], before[0], before[12], before[23])
}

// smoothed is the least time by averaging alone.
func smoothed(t *testing.T, p Path, limits []Limit) float64 {
	g, _, err := settle(p, limits)
	require.NoError(t, err)
	s := smoother{path: p, limits: limits, at: make([]track.State, len(limits))}
	s.best.sec = math.Inf(1)
	for loose := 1.; loose <= easiest; loose *= easier {
		g.bounds()
		g.tighten(loose)
		z, err := g.fastest()
		require.NoError(t, err)
		s.try(newProfile(g, z))
	}
	return s.schedule(0).Seconds()
}

// TestACurveIsItsClosedForm: a cell's time, and what is asked within it.
func TestACurveIsItsClosedForm(t *testing.T) {
	c := newSpline([]float64{4, 9, 2, 7, 7, 7, 1e-3, 5}, 0.25)
	assert.InDelta(t, 2, c.length, 1e-12)
	const h = 1e-5
	for k := range 200 {
		at := c.total * (float64(k) + 0.37) / 200
		p := c.at(at)
		before, after := c.at(at-h), c.at(at+h)
		assert.InDelta(t, (after.S-before.S)/(2*h), p.Vel, 1e-6*(1+p.Vel))
		assert.InDelta(t, (after.Vel-before.Vel)/(2*h), p.Acc, 1e-3*(1+math.Abs(p.Acc)))
	}
	for _, k := range c.bends[1:] {
		before := c.at(k.t - 1e-9)
		assert.InDelta(t, k.s, before.S, 1e-8)
		assert.InDelta(t, before.Vel, c.at(k.t).Vel, 1e-6)
		assert.InDelta(t, before.Acc, c.at(k.t).Acc, 1e-3, "no jump of the change of the pace")
	}
}

// TestBandSolves holds the solver against the matrix that it is given.
func TestBandSolves(t *testing.T) {
	for _, n := range []int{8, 9, 64} {
		b := newBand(n)
		full := make([][]float64, n)
		for i := range full {
			full[i] = make([]float64, n)
		}
		put := func(i, k int, v float64) {
			b.add(i, k, v)
			full[i][k] += v
			if i != k {
				full[k][i] += v
			}
		}
		want := make([]float64, n)
		for i := range n {
			put(i, i, 10+float64(i%3))
			put(i, (i+1)%n, -1.5)
			put(i, (i+2)%n, 0.7)
			want[i] = math.Sin(float64(3 * i))
		}
		x := make([]float64, n)
		for i := range n {
			for k := range n {
				x[i] += full[i][k] * want[k]
			}
		}
		require.True(t, b.solve(x))
		for i := range n {
			assert.InDelta(t, want[i], x[i], 1e-12)
		}
	}
}

package law

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const (
	// sameTime is relative: the reference is good to 3e-15.
	sameTime = 1e-12
	// samePlace, in mm, is a hundred thousandth of a microstep.
	samePlace = 1e-9
)

// TestReference compares with moves found by a general trajectory library and
// confirmed by search in 40 digits; testdata/reference/README.md says how.
func TestReference(t *testing.T) {
	rows := readReference(t)
	require.Len(t, rows, 43)
	for _, row := range rows {
		d, v, a, j := number(t, row["distance_mm"]), number(t, row["vmax"]), number(t, row["amax"]), number(t, row["jmax"])
		p := Fastest(d, v, a, j)
		tag := row["tag"] + " " + row["distance_mm"]
		duration := number(t, row["duration_s"])
		assert.InEpsilon(t, duration, p.T, sameTime, tag)
		for share, column := range map[float64]string{0.25: "p25", 0.5: "p50", 0.75: "p75"} {
			pos, _, _, _ := p.At(duration * share)
			assert.InDelta(t, number(t, row[column]), pos, samePlace, "%s %s", tag, column)
		}
		assert.InEpsilon(t, number(t, row["peak_speed"]), p.V, sameTime, tag)
	}
}

func readReference(t *testing.T) []map[string]string {
	t.Helper()
	f, err := os.Open("../../testdata/reference/jerk_limited_rest_to_rest.tsv")
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comma = '\t'
	lines, err := r.ReadAll()
	require.NoError(t, err)
	var rows []map[string]string
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, name := range lines[0] {
			row[name] = line[i]
		}
		rows = append(rows, row)
	}
	return rows
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	f, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return f
}

// move is a rest-to-rest move: its distance and its limits.
type move struct{ d, v, a, j float64 }

// drawMove draws any move, or one within a tenth of the distance at which
// another limit comes into play.
func drawMove(t *rapid.T) move {
	log := func(what string, low, high float64) float64 {
		return math.Pow(10, rapid.Float64Range(low, high).Draw(t, what))
	}
	m := move{log("log distance", -4, 4), log("log v", -2, 4), log("log a", -1, 5), log("log j", -1, 7)}
	near := rapid.Float64Range(0.9, 1.1).Draw(t, "near")
	switch rapid.IntRange(0, 3).Draw(t, "border") {
	case 1: // the acceleration limit is just reached, or just not
		m.d = near * 2 * m.a * m.a * m.a / (m.j * m.j)
		m.v = 2 * m.a * m.a / m.j
	case 2: // the speed limit is, after a stretch of even acceleration
		m.v = 3 * m.a * m.a / m.j
		m.d = near * m.v * (m.v/m.a + m.a/m.j)
	case 3: // the speed limit is, on jerk alone
		m.v = 0.5 * m.a * m.a / m.j
		m.d = near * m.v * 2 * math.Sqrt(m.v/m.j)
	}
	if rapid.Bool().Draw(t, "back") {
		m.d = -m.d
	}
	return m
}

func (m move) fastest() Profile { return Fastest(m.d, m.v, m.a, m.j) }

// TestFastestObeysLimits takes the jerk of each segment and sums it up anew,
// knowing nothing of At, to the end of the move.
func TestFastestObeysLimits(t *testing.T) {
	const room = 1 + 1e-12
	rapid.Check(t, func(t *rapid.T) {
		m := drawMove(t)
		p := m.fastest()
		var x, v, a, elapsed float64
		for _, s := range segments(p) {
			j, h := s[0], s[1]
			require.GreaterOrEqual(t, h, -1e-12*p.T)
			x += h * (v + h*(a/2+h*j/6))
			v += h * (a + h*j/2)
			a += h * j
			elapsed += h
			require.LessOrEqual(t, math.Abs(v), m.v*room)
			require.LessOrEqual(t, math.Abs(a), m.a*room)
			require.LessOrEqual(t, math.Abs(j), m.j*room)
		}
		require.InDelta(t, m.d, x, 1e-11*math.Abs(m.d))
		require.InDelta(t, 0, v, 1e-11*p.V)
		require.InDelta(t, 0, a, 1e-11*p.A)
		require.InEpsilon(t, p.T, elapsed, 1e-12)
	})
}

// segments are the seven pairs of jerk and time.
func segments(p Profile) [][2]float64 {
	j := math.Copysign(p.J, p.Distance)
	flat := p.Ta - 2*p.Tj
	return [][2]float64{{j, p.Tj}, {0, flat}, {-j, p.Tj}, {0, p.Tv}, {-j, p.Tj}, {0, flat}, {j, p.Tj}}
}

// TestFastestUsesALimit: a move that reaches none of its limits for long
// enough could be quicker. Jerk is always at its limit; then one of: the speed
// limit is reached, the acceleration limit is, or acceleration is never held.
func TestFastestUsesALimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMove(t)
		p := m.fastest()
		require.Equal(t, m.j, p.J)
		if p.Tv > 0 {
			require.Equal(t, m.v, p.V)
		}
		if p.Ta > 2*p.Tj*(1+1e-12) {
			require.InEpsilon(t, m.a, p.A, 1e-12)
		}
	})
}

// TestFastestBeatsEveryLaw: no smooth law under the same limits is quicker.
func TestFastestBeatsEveryLaw(t *testing.T) {
	var smooth []Law
	for _, l := range everyLaw(t) {
		if l.At(0).A == 0 && l.At(0).V == 0 {
			smooth = append(smooth, l)
		}
	}
	require.GreaterOrEqual(t, len(smooth), 6)
	rapid.Check(t, func(t *rapid.T) {
		m := drawMove(t)
		l := rapid.SampledFrom(smooth).Draw(t, "law")
		c, d := l.Peaks(), math.Abs(m.d)
		law := max(c.V*d/m.v, math.Sqrt(c.A*d/m.a), math.Cbrt(c.J*d/m.j))
		require.LessOrEqual(t, m.fastest().T, law*(1+1e-12))
	})
}

// TestFastestIsASevenSegmentLaw compares At with the law of the same shares.
func TestFastestIsASevenSegmentLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMove(t)
		p := m.fastest()
		ramp, share := min(p.Ta/p.T, 0.5), min(p.Tj/p.Ta, 0.5)
		if ramp < 1e-3 || share < 1e-3 { // the shares themselves lose digits
			t.Skip()
		}
		l, err := SevenSegment(ramp, share)
		require.NoError(t, err)
		u := rapid.Float64Range(0, 1).Draw(t, "u")
		want := l.At(u)
		pos, vel, acc, _ := p.At(u * p.T)
		require.InDelta(t, want.S*m.d, pos, 1e-12*math.Abs(m.d))
		require.InDelta(t, want.V*m.d/p.T, vel, 1e-9*p.V)
		require.InDelta(t, want.A*m.d/p.T/p.T, acc, 1e-8*p.A)
	})
}

// TestProfileIsSmooth: no jump of position, speed or acceleration greater
// than the limits allow in the time between.
func TestProfileIsSmooth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMove(t)
		p := m.fastest()
		at := rapid.Float64Range(-0.1, 1.1).Draw(t, "share") * p.T
		h := p.T * 1e-6
		x0, v0, a0, _ := p.At(at)
		x1, v1, a1, _ := p.At(at + h)
		const room = 1 + 1e-6
		require.LessOrEqual(t, math.Abs(x1-x0), p.V*h*room+1e-12*math.Abs(m.d))
		require.LessOrEqual(t, math.Abs(v1-v0), p.A*h*room+1e-12*p.V)
		require.LessOrEqual(t, math.Abs(a1-a0), p.J*h*room+1e-12*p.A)
	})
}

func TestFastestEdges(t *testing.T) {
	still := Fastest(0, 1, 2, 3)
	assert.Zero(t, still.T)
	pos, vel, acc, jerk := still.At(0)
	assert.Equal(t, [4]float64{}, [4]float64{pos, vel, acc, jerk})

	// No jerk limit: two even ramps, 2 sqrt(d/a).
	sudden := Fastest(100, math.Inf(1), 25, math.Inf(1))
	assert.InEpsilon(t, 4., sudden.T, sameTime)
	pos, vel, acc, _ = sudden.At(1)
	assert.Equal(t, [3]float64{12.5, 25, 25}, [3]float64{pos, vel, acc})
	// With a speed limit, d/v + v/a.
	assert.InEpsilon(t, 100/10.+10/25., Fastest(-100, 10, 25, math.Inf(1)).T, sameTime)
	// No acceleration limit: 4 cbrt(d/2j).
	assert.InEpsilon(t, 4., Fastest(20, math.Inf(1), math.Inf(1), 10).T, sameTime)

	p := Fastest(-16, 100, 1000, 1000)
	pos, vel, _, _ = p.At(p.T + 1)
	assert.Equal(t, [2]float64{-16, 0}, [2]float64{pos, vel})
	pos, vel, _, _ = p.At(-1)
	assert.Equal(t, [2]float64{0, 0}, [2]float64{pos, vel})
}

func TestFastestPanics(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	for _, m := range []move{
		{nan, 1, 1, 1}, {inf, 1, 1, 1}, {1, 0, 1, 1}, {1, -1, 1, 1}, {1, nan, 1, 1}, {1, 1, 0, 1},
		{1, 1, nan, 1}, {1, 1, 1, 0}, {1, 1, 1, nan}, {1, 1, inf, inf},
	} {
		assert.Panics(t, func() { m.fastest() }, "%v", m)
	}
}

func TestFastestAllocatesNothing(t *testing.T) {
	sum := 0.
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		pos, _, _, _ := Fastest(100, 100, 500, 5000).At(0.3)
		sum += pos
	}))
	assert.Positive(t, sum)
}

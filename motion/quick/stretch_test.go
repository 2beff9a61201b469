package quick

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
	"pgregory.net/rapid"

	"seamrail/motion/exact"
)

// drawDuration draws a duration that the leg can take.
func drawDuration(t *rapid.T, l Leg) float64 {
	d, err := l.Possible()
	require.NoError(t, err)
	direct := ramp(l.End-l.Start, l.Acc, l.Jerk) + l.Speed/l.Acc
	if d.Gap() && d.Until > d.Least && rapid.Bool().Draw(t, "before the gap") {
		return d.Least + (d.Until-d.Least)*rapid.Float64Range(0, 1).Draw(t, "share")
	}
	return d.Next(d.Least + direct*math.Pow(10, rapid.Float64Range(-3, 2).Draw(t, "log longer")))
}

func ramp(dv, acc, jerk float64) float64 {
	dv = math.Abs(dv)
	if dv*jerk <= acc*acc {
		return 2 * math.Sqrt(dv/jerk)
	}
	return dv/acc + acc/jerk
}

// little is by how much a limit is lowered to make a move impossible. Where a
// limit is hardly reached, the time depends on the cube of it.
const little = 0.01

// TestStretch: the move takes exactly that long, and with a limit lower by a
// little it could not.
func TestStretch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLeg(t)
		sec := drawDuration(t, l)
		aim := rapid.SampledFrom([]Aim{LeastAcc, LeastJerk}).Draw(t, "aim")
		m, err := l.Stretch(sec, aim)
		require.NoError(t, err, "%+v %v", l, sec)
		require.Equal(t, sec, m.Duration())
		checkMove(t, &m)
		lower := m.Leg()
		require.LessOrEqual(t, lower.Acc, l.Acc)
		require.LessOrEqual(t, lower.Jerk, l.Jerk)
		if aim == LeastAcc {
			lower.Acc *= 1 - little
		} else {
			lower.Jerk *= 1 - little
		}
		// Beyond such a jerk a change of it takes no time that tells.
		sudden := lower.Jerk > 1e9*l.Acc*l.Acc/l.Speed
		// So close to the mean speed hardly anything is needed.
		steady := math.Abs(l.Distance-(l.Start+l.End)/2*sec) < 1e-6*l.Speed*sec
		if d, err := lower.Possible(); err == nil && !sudden && !steady {
			require.False(t, d.Allows(sec), "%+v %v %v", l, sec, d)
		}
	})
}

// TestStretchByHand has cases with closed forms.
func TestStretchByHand(t *testing.T) {
	free := Leg{Distance: 32, Speed: 1e3, Acc: 1e3, Jerk: 1e6}
	// Least jerk from rest to rest is 32 d/t^3, as d = 2 j (t/4)^3.
	m, err := free.Stretch(4, LeastJerk)
	require.NoError(t, err)
	assert.InEpsilon(t, 32*32/64., m.Leg().Jerk, 1e-12)
	// Least acceleration without a limit of jerk is 4 d/t^2.
	free.Jerk = math.Inf(1)
	m, err = free.Stretch(4, LeastAcc)
	require.NoError(t, err)
	assert.InEpsilon(t, 4*32/16., m.Leg().Acc, 1e-12)
	_, vel, acc, _ := m.At(1)
	assert.InDelta(t, 8, vel, 1e-12)
	assert.InDelta(t, 8, acc, 1e-12)
	// With a peak of 10 mm/s, d = v (t - v/a): a = v/(t - d/v).
	free.Speed = 10
	m, err = free.Stretch(4, LeastAcc)
	require.NoError(t, err)
	assert.InEpsilon(t, 10/(4-3.2), m.Leg().Acc, 1e-12)
	// At one speed throughout nothing accelerates.
	steady := Leg{Distance: 40, Start: 10, End: 10, Speed: 10, Acc: 1, Jerk: 1}
	m, err = steady.Stretch(4, LeastAcc)
	require.NoError(t, err)
	assert.Zero(t, m.Leg().Acc)
	pos, vel, acc, _ := m.At(1)
	assert.Equal(t, [3]float64{10, 10, 0}, [3]float64{pos, vel, acc})
	// An even change of speed: v1-v0 over t.
	ramp := Leg{Distance: 20, End: 10, Speed: 10, Acc: 100, Jerk: math.Inf(1)}
	m, err = ramp.Stretch(4, LeastAcc)
	require.NoError(t, err)
	assert.InEpsilon(t, 10/4., m.Leg().Acc, 1e-12)
}

// cells of the linear programme. A jerk that changes only at their ends loses
// up to about 1/cells where the true one changes within.
const (
	cells     = 24
	lpSlack   = 0.06
	lpBetter  = 1e-6 // it bounds speed at the ends of cells only
	lpResidue = 1e-9
)

// TestStretchAgainstLinearProgramme: the lowest peak acceleration, and jerk, by
// a general optimiser (gonum's simplex) over all jerks constant in each of
// some cells, with the same limits.
func TestStretchAgainstLinearProgramme(t *testing.T) {
	legs := []struct {
		leg Leg
		sec float64
	}{
		{Leg{1, 0, 0, 2, 20, 100}, 1},
		{Leg{1, 0, 0, 1.4, 20, 100}, 1},
		{Leg{1, 1, 1.5, 3, 30, 200}, 0.6},
		{Leg{0, 1, 1, 3, 10, 60}, 1.6},
		{Leg{0.2, -0.5, 0.5, 1, 10, 60}, 1.5},
		{Leg{-0.4, 0, 1, 1.2, 10, 60}, 2},
	}
	for _, c := range legs {
		for _, aim := range []Aim{LeastAcc, LeastJerk} {
			m, err := c.leg.Stretch(c.sec, aim)
			require.NoError(t, err)
			got := m.Leg().Acc
			if aim == LeastJerk {
				got = m.Leg().Jerk
			}
			want := newProgramme(c.leg, c.sec).lowest(t, aim)
			assert.LessOrEqual(t, got, want*(1+lpBetter), "%+v", c)
			assert.InEpsilon(t, want, got, lpSlack, "%+v", c)
		}
	}
}

// programme holds, as rows over the jerks of the cells, acceleration, speed and
// position at the end of each cell.
type programme struct {
	leg           Leg
	acc, vel, pos [cells][cells]float64
	sec           float64
}

func newProgramme(l Leg, sec float64) *programme {
	p := &programme{leg: l, sec: sec}
	h := sec / cells
	for k := range cells {
		for i := range k + 1 {
			after := float64(k-i) * h
			p.acc[k][i] = h
			p.vel[k][i] = h*h/2 + h*after
			p.pos[k][i] = h*h*h/6 + h*h/2*after + h*after*after/2
		}
	}
	return p
}

// lowest minimises the last variable, a bound on acceleration or jerk. Jerks
// are counted from minus their limit, so that no variable is below 0; every row
// that may not be exceeded has a slack.
func (p *programme) lowest(t *testing.T, aim Aim) float64 {
	last := cells - 1
	var rows [][]float64
	var right []float64
	row := func(jerks []float64, sign, value float64, aimed, slack bool) {
		r := make([]float64, cells+1)
		for i, f := range jerks {
			r[i] = sign * f
			value += sign * f * p.leg.Jerk
		}
		if aimed {
			r[cells] = -1
		}
		if slack {
			r = append(r, 1)
		}
		rows, right = append(rows, r), append(right, value)
	}
	both := func(jerks []float64, offset, limit float64, aimed bool) {
		if aimed {
			limit = 0
		}
		row(jerks, 1, limit-offset, aimed, true)
		row(jerks, -1, limit+offset, aimed, true)
	}
	for k := range cells {
		unit := make([]float64, cells)
		unit[k] = 1
		both(unit, 0, p.leg.Jerk, aim == LeastJerk)
		if k < last {
			both(p.acc[k][:], 0, p.leg.Acc, aim == LeastAcc)
			both(p.vel[k][:], p.leg.Start, p.leg.Speed, false)
		}
	}
	row(p.acc[last][:], 1, 0, false, false)
	row(p.vel[last][:], 1, p.leg.End-p.leg.Start, false, false)
	row(p.pos[last][:], 1, p.leg.Distance-p.leg.Start*p.sec, false, false)
	return solveProgramme(t, rows, right)
}

// solveProgramme gives each slack a column of its own.
func solveProgramme(t *testing.T, rows [][]float64, right []float64) float64 {
	columns := cells + 1 + len(rows) - 3
	a := mat.NewDense(len(rows), columns, nil)
	for i, r := range rows {
		for k, f := range r[:cells+1] {
			a.Set(i, k, f)
		}
		if len(r) > cells+1 {
			a.Set(i, cells+1+i, 1)
		}
	}
	c := make([]float64, columns)
	c[cells] = 1
	least, _, err := lp.Simplex(c, a, right, lpResidue, nil)
	require.NoError(t, err)
	return least
}

// TestGap: at its ends the leg can just be made, inside it cannot. The bound is
// taken from the peaks themselves.
func TestGap(t *testing.T) {
	gaps := 0
	rapid.Check(t, func(t *rapid.T) {
		l := drawLeg(t)
		d, err := l.Possible()
		require.NoError(t, err)
		require.True(t, d.Allows(d.Least))
		if !d.Gap() {
			return
		}
		gaps++
		require.GreaterOrEqual(t, d.Until, d.Least)
		if l.Start < 0 {
			l = l.mirrored()
		}
		require.True(t, l.Start > 0 && l.End > 0, "only with both end speeds one way")
		// A peak within a rounding of an end speed takes the root of it.
		slack := l.Speed * (1e-9*d.Again + ramp(4*0x1p-53*l.Speed, l.Acc, l.Jerk))
		require.InDelta(t, l.Distance, l.leastDistance(d.Again), slack)
		if d.Until > d.Least*(1+1e-9) {
			require.InDelta(t, l.Distance, l.leastDistance(d.Until), slack)
		}
		inside := d.Until + (d.Again-d.Until)*rapid.Float64Range(0, 1).Draw(t, "inside")
		require.GreaterOrEqual(t, l.leastDistance(inside), l.Distance-slack)
		m, err := l.Detour()
		require.NoError(t, err)
		checkMove(t, &m)
		require.InEpsilon(t, d.Again, m.Duration(), sameTime)
	})
	require.NotZero(t, gaps)
}

// leastDistance returns the distance of the move with a peak below both ends
// that takes sec, found by halving.
func (l Leg) leastDistance(sec float64) float64 {
	at := func(peak float64) (distance, seconds float64) {
		a, b := ramp(peak-l.Start, l.Acc, l.Jerk), ramp(peak-l.End, l.Acc, l.Jerk)
		return (l.Start+peak)/2*a + (peak+l.End)/2*b, a + b
	}
	low, high := -l.Speed, min(l.Start, l.End)
	if d, t := at(low); t <= sec {
		return d + low*(sec-t)
	}
	for range 200 {
		mid := (low + high) / 2
		if _, t := at(mid); t > sec {
			low = mid
		} else {
			high = mid
		}
	}
	d, _ := at(high)
	return d
}

func TestTogether(t *testing.T) {
	slow := Leg{Distance: 100, Speed: 100, Acc: 500, Jerk: 5000}
	gapped := Leg{Distance: 10, Start: 100, End: 100, Speed: 100, Acc: 500, Jerk: 5000}
	d, err := gapped.Possible()
	require.NoError(t, err)
	require.True(t, d.Gap())
	first, err := slow.Possible()
	require.NoError(t, err)
	require.Less(t, d.Least, first.Least)

	sec, err := Together(0, slow)
	require.NoError(t, err)
	require.Equal(t, first.Least, sec)
	sec, err = Together(0, gapped)
	require.NoError(t, err)
	require.Equal(t, d.Least, sec)
	sec, err = Together(0, slow, gapped)
	require.NoError(t, err)
	require.Equal(t, max(first.Least, d.Again), sec)
	for _, l := range []Leg{slow, gapped} {
		m, err := l.Stretch(sec, LeastJerk)
		require.NoError(t, err)
		require.Equal(t, sec, m.Duration())
	}
	sec, err = Together(60, slow, gapped)
	require.NoError(t, err)
	require.Equal(t, 60., sec)

	inside := (d.Until + d.Again) / 2
	_, err = gapped.Stretch(inside, LeastAcc)
	var impossible *DurationError
	require.ErrorAs(t, err, &impossible)
	require.Equal(t, &DurationError{inside, d}, impossible)
	require.Contains(t, err.Error(), "not possible; these are: from 0.1 s to ")
	_, err = slow.Detour()
	require.ErrorIs(t, err, ErrNoDetour)
}

// TestFrames: the first whole number of frames that no leg bars.
func TestFrames(t *testing.T) {
	rate := exact.New(24000, 1001)
	rapid.Check(t, func(t *rapid.T) {
		legs := []Leg{drawFrameLeg(t), drawFrameLeg(t)}
		frames, sec, err := Frames(rate, legs...)
		require.NoError(t, err)
		require.Equal(t, exact.Int(frames), sec.Mul(rate))
		fits := func(n int64) bool {
			for _, l := range legs {
				if d, err := l.Possible(); err != nil || !d.Allows(exact.Int(n).Quo(rate).Float()) {
					return false
				}
			}
			return true
		}
		require.True(t, fits(frames))
		for n := range frames {
			require.False(t, fits(n), "%d of %d frames", n, frames)
		}
	})
	_, _, err := Frames(rate, Leg{})
	require.ErrorIs(t, err, ErrLimit)
}

func drawFrameLeg(t *rapid.T) Leg {
	return Leg{
		Distance: rapid.Float64Range(-20, 60).Draw(t, "distance"),
		Start:    rapid.Float64Range(-50, 50).Draw(t, "start"), End: rapid.Float64Range(-50, 50).Draw(t, "end"),
		Speed: 60, Acc: 300, Jerk: 3000,
	}
}

// TestZeroDistance: 0 s, or the excursion that comes back.
func TestZeroDistance(t *testing.T) {
	l := Leg{Start: 50, End: 50, Speed: 100, Acc: 500, Jerk: 5000}
	m, err := l.Fastest()
	require.NoError(t, err)
	require.Zero(t, m.Duration())
	d, err := l.Possible()
	require.NoError(t, err)
	require.Equal(t, 0., d.Until)
	// Down to -v and back: 2 T(v + peak), the peak being where both halves
	// cover nothing: v = -peak. T(100) = 100/500 + 500/5000.
	m, err = l.Detour()
	require.NoError(t, err)
	require.InEpsilon(t, 0.6, m.Duration(), sameTime)
	lo, hi := m.Extent()
	// It stands still halfway down: after 0.1 s of 50 t - 5000 t^3/6, and 0.05 s
	// of 25 t - 500 t^2/2.
	require.InEpsilon(t, 5-5/6.+1.25-0.625, hi, sameTime)
	require.InEpsilon(t, -(5 - 5/6. + 1.25 - 0.625), lo, sameTime)
}

package mintime

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/law"
)

// checkMove integrates the move by Simpson's rule, which is exact for the
// squares that speeds are, from the values At gives at the ends and in the
// middle of each part; and holds the values against the limits.
func checkMove(t require.TestingT, m *Move) {
	const slack = 1e-11
	l := m.Leg()
	pos, vel, acc, _ := m.At(0)
	require.Equal(t, [3]float64{0, l.Start, 0}, [3]float64{pos, vel, acc})
	pos, vel, acc, _ = m.At(m.Duration())
	require.Equal(t, [3]float64{l.Distance, l.End, 0}, [3]float64{pos, vel, acc})
	top := max(math.Abs(l.Start), math.Abs(l.End))
	for i := range m.parts {
		_, v, _, _ := m.At(m.begins(i))
		top = max(top, math.Abs(v))
	}
	way, x := top*m.Duration(), 0.
	late := roundings * m.Duration() // of a time within the move
	_, accMax, jerkMax := m.Peaks()
	if math.IsInf(jerkMax, 1) {
		jerkMax = 0
	}
	for i := range m.parts {
		p, h := &m.parts[i], m.ends(i)-m.begins(i)
		if h <= 0 {
			continue
		}
		at := func(share float64) float64 {
			q := *p
			_, v := q.state(m.begins(i) + share*h - q.origin)
			return v
		}
		x += h / 6 * (at(0) + 4*at(0.5) + at(1))
		pos, vel, acc, jerk := m.At(m.ends(i))
		require.InDelta(t, x, pos, slack*way, "%+v", l)
		require.InDelta(t, at(1), vel, slack*top+accMax*late, "%+v", l)
		require.LessOrEqual(t, math.Abs(vel), l.Speed*(1+slack)+accMax*late, "%+v", l)
		require.LessOrEqual(t, math.Abs(acc), l.Acc*(1+slack)+jerkMax*late, "%+v", l)
		require.LessOrEqual(t, math.Abs(jerk), l.Jerk*(1+slack), "%+v", l)
	}
}

// state is At of one part, t from its origin, written out anew.
func (p *part) state(t float64) (pos, vel float64) {
	return p.pos + p.vel*t + p.half*t*t + p.sixth*t*t*t, p.vel + 2*p.half*t + 3*p.sixth*t*t
}

func TestMovesAreWhatTheySay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLeg(t)
		m, err := l.Fastest()
		require.NoError(t, err)
		checkMove(t, &m)
		lo, hi := m.Extent()
		at := rapid.Float64Range(0, 1).Draw(t, "share") * m.Duration()
		pos, _, _, _ := m.At(at)
		room := 1e-12 * max(hi-lo, l.Speed*m.Duration())
		require.GreaterOrEqual(t, pos, lo-room)
		require.LessOrEqual(t, pos, hi+room)
	})
}

// roundings are what sums in another order may differ by.
const roundings = 8 * 0x1p-53

// TestSymmetry: backwards in time, and mirrored, the same leg takes as long.
func TestSymmetry(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLeg(t)
		m, err := l.Fastest()
		require.NoError(t, err)
		reversed, mirrored := l, l.mirrored()
		reversed.Start, reversed.End = l.End, l.Start
		r, err := reversed.Fastest()
		require.NoError(t, err)
		require.InDelta(t, m.Duration(), r.Duration(), roundings*m.Duration())
		r, err = mirrored.Fastest()
		require.NoError(t, err)
		require.InDelta(t, m.Duration(), r.Duration(), roundings*m.Duration())
	})
}

// TestHigherLimitsAreNoSlower, and speeds in other units take as long.
func TestHigherLimitsAreNoSlower(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLeg(t)
		m, err := l.Fastest()
		require.NoError(t, err)
		eased := l
		for _, limit := range []*float64{&eased.Speed, &eased.Acc, &eased.Jerk} {
			*limit *= rapid.Float64Range(1, 100).Draw(t, "easier")
			e, err := eased.Fastest()
			require.NoError(t, err)
			require.LessOrEqual(t, e.Duration(), m.Duration()*(1+1e-9), "%+v", l)
		}
		scaled := l
		for _, f := range []*float64{&scaled.Distance, &scaled.Start, &scaled.End, &scaled.Speed, &scaled.Acc, &scaled.Jerk} {
			*f *= 1 << 20
		}
		s, err := scaled.Fastest()
		require.NoError(t, err)
		require.Equal(t, m.Duration(), s.Duration())
	})
}

// TestRestToRest compares with the closed form of the motion laws.
func TestRestToRest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLeg(t)
		l.Start, l.End = 0, 0
		m, err := l.Fastest()
		require.NoError(t, err)
		want := law.Fastest(l.Distance, l.Speed, l.Acc, l.Jerk)
		require.InDelta(t, want.Duration(), m.Duration(), roundings*want.Duration())
		lo, hi := m.Extent()
		require.Equal(t, [2]float64{min(0, l.Distance), max(0, l.Distance)}, [2]float64{lo, hi})
	})
}

// named are all errors a leg may have.
var named = []error{ErrNotFinite, ErrLimit, ErrSpeed, ErrRange}

func FuzzLeg(f *testing.F) {
	for _, c := range benchLegs {
		l := c.leg
		f.Add(l.Distance, l.Start, l.End, l.Speed, l.Acc, l.Jerk, 1.)
	}
	f.Add(5e-324, 1e300, -1e300, math.MaxFloat64, 1e-300, 5e-324, 1e-300)
	f.Add(0., 10., 10., 10., 1e-9, math.Inf(1), 1.)
	f.Fuzz(func(t *testing.T, distance, start, end, speed, acc, jerk, sec float64) {
		l := Leg{distance, start, end, speed, acc, jerk}
		for _, solve := range []func() (Move, error){
			l.Fastest, l.Detour,
			func() (Move, error) { return l.Stretch(sec, MinAcc) },
			func() (Move, error) { return l.Stretch(sec, MinJerk) },
		} {
			m, err := solve()
			if err == nil {
				checkMove(t, &m)
				continue
			}
			require.Zero(t, m)
			var impossible *DurationError
			if !errorAs(err, &impossible) {
				require.Contains(t, append([]error{ErrNoDetour}, named...), err)
			}
		}
	})
}

func errorAs(err error, to **DurationError) bool {
	e, ok := err.(*DurationError)
	*to = e
	return ok
}

func TestErrors(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	for _, c := range []struct {
		leg  Leg
		want error
	}{
		{Leg{nan, 0, 0, 1, 1, 1}, ErrNotFinite},
		{Leg{inf, 0, 0, 1, 1, 1}, ErrNotFinite},
		{Leg{1, nan, 0, 1, 1, 1}, ErrNotFinite},
		{Leg{1, 0, -inf, 1, 1, 1}, ErrNotFinite},
		{Leg{1, 0, 0, 0, 1, 1}, ErrLimit},
		{Leg{1, 0, 0, nan, 1, 1}, ErrLimit},
		{Leg{1, 0, 0, inf, 1, 1}, ErrLimit},
		{Leg{1, 0, 0, 1, -1, 1}, ErrLimit},
		{Leg{1, 0, 0, 1, inf, 1}, ErrLimit},
		{Leg{1, 0, 0, 1, 1, 0}, ErrLimit},
		{Leg{1, 0, 0, 1, 1, nan}, ErrLimit},
		{Leg{1, 2, 0, 1, 1, 1}, ErrSpeed},
		{Leg{1, 0, -2, 1, 1, 1}, ErrSpeed},
		{Leg{1e300, 0, 0, 1e-300, 1, 1}, ErrRange},
	} {
		m, err := c.leg.Fastest()
		require.ErrorIs(t, err, c.want, "%+v", c.leg)
		require.Zero(t, m)
		_, err = c.leg.Possible()
		require.ErrorIs(t, err, c.want)
		_, err = c.leg.Stretch(1, MinAcc)
		require.ErrorIs(t, err, c.want)
		_, err = c.leg.Detour()
		require.ErrorIs(t, err, c.want)
		_, err = Together(0, c.leg)
		require.ErrorIs(t, err, c.want)
	}
}

func TestNothingIsAllocated(t *testing.T) {
	for _, c := range benchLegs {
		require.Zero(t, testing.AllocsPerRun(100, func() {
			m, _ := c.leg.Fastest()
			pos, _, _, _ := m.At(0.1)
			sink += pos
		}), c.name)
	}
}

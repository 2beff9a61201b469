package toppath

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/law"
	"seamrail/motion/law/mintime"
	"seamrail/motion/track"
)

func least(t require.TestingT, p Path, limits []Limit, n int) float64 {
	g, err := newGrid(p, limits, n)
	require.NoError(t, err)
	z, err := g.fastest()
	require.NoError(t, err)
	return newProfile(g, z).seconds()
}

// TestClosedForms of the least time under speed and acceleration.
func TestClosedForms(t *testing.T) {
	for _, c := range []struct {
		name   string
		path   Path
		limits []Limit
		want   float64
		within float64
	}{
		// Full on, full off: 2 sqrt(d/a).
		{"line, acceleration", line(100, 1), []Limit{{1e6, 25, 0}}, 4, 1e-12},
		// A trapezoid: d/v + v/a.
		{"line, speed", line(100, 1), []Limit{{10, 25, 0}}, 100/10. + 10/25., 2e-5},
		// The axis whose limits are the least for its part of the way.
		{"line, three axes", line(100, 1, -0.5, 0), []Limit{{1e6, 100, 0}, {1e6, 12.5, 0}, {1, 1, 0}}, 4, 1e-12},
		// On a circle with speed limits alone the faster axis is at its limit:
		// the integral of max(|sin|, |cos|), 4 sqrt 2.
		{"circle, speed", circle(30), []Limit{{10, 1e9, 0}, {10, 1e9, 0}}, 3 * 4 * math.Sqrt2, 1e-4},
		// There and back between two places at rest: 4 sqrt(d/a).
		{"swing, acceleration", swing(50), []Limit{{1e6, 25, 0}}, 8, 1e-3},
		{"swing, speed", swing(50), []Limit{{10, 25, 0}}, 2 * (100/10. + 10/25.), 1e-3},
	} {
		got := least(t, c.path, c.limits, 2*cells)
		assert.InEpsilon(t, c.want, got, c.within, "%s: %v", c.name, got/c.want-1)
	}
}

// TestConverges: with more cells the swing comes nearer its closed form.
func TestConverges(t *testing.T) {
	last := math.Inf(1)
	for _, n := range []int{64, 256, 1024} {
		off := math.Abs(least(t, swing(50), []Limit{{1e6, 25, 0}}, n)/8 - 1)
		assert.Less(t, off, last/2, "%d cells", n)
		last = off
	}
}

// TestEnoughCells: many keys get more cells, and twice those change little.
func TestEnoughCells(t *testing.T) {
	for keys, want := range map[int]int{20: 2 * cells, 200: maxCells} {
		loop, limits := keyed(t, keys, wave)
		g, f, err := settle(loop, limits)
		require.NoError(t, err)
		assert.Equal(t, want, g.n, "%d keys", keys)
		assert.InEpsilon(t, least(t, loop, limits, 2*g.n), f.seconds(), 2*sameCells, "%d keys", keys)
		s, err := New(loop, limits)
		require.NoError(t, err)
		checkLimits(t, s, limits)
	}
}

// TestStraightLineIsTheJerkLimitedOptimum compares with the closed form of the
// quickest move, which knows nothing of paths.
func TestStraightLineIsTheJerkLimitedOptimum(t *testing.T) {
	s, err := New(line(100, 1), []Limit{{10, 25, 125}})
	require.NoError(t, err)
	m, err := mintime.Leg{Distance: 100, Speed: 10, Acc: 25, Jerk: 125}.Fastest()
	require.NoError(t, err)
	assert.InEpsilon(t, m.Duration(), s.Seconds(), 0.02)
	assert.GreaterOrEqual(t, s.Seconds(), m.Duration())
	assert.LessOrEqual(t, s.Bound(), m.Duration())
}

// keyed makes a loop of 20 keys on 4 axes, and the limits of a small rig.
func keyed(t require.TestingT, keys int, seed func(i, axis int) float64) (Loop, []Limit) {
	period := exact.Int(20)
	var loop Loop
	limits := []Limit{{200, 800, 8000}, {90, 400, 4000}, {60, 300, 3000}, {40, 160, 1600}}
	spans := []float64{300, 90, 30, 20}
	for a := range limits {
		spec := track.KeysSpec{}
		for i := range keys {
			spec.Keys = append(spec.Keys, track.Key{
				Time: exact.New(int64(20*i), int64(keys)), Pos: spans[a] * seed(i, a)})
		}
		k, err := track.Keys(period, spec)
		require.NoError(t, err)
		loop = append(loop, k)
	}
	return loop, limits
}

func wave(i, axis int) float64 {
	return 0.5 + 0.5*math.Sin(float64(i)*(1.3+0.37*float64(axis))+float64(axis))
}

// checkLimits samples finely, at times no sample of the maker's falls on.
func checkLimits(t require.TestingT, s *Schedule, limits []Limit) (vel, acc, jerk float64) {
	const samples = 10007
	at := make([]track.State, len(limits))
	for i := range samples {
		s.States((float64(i)+0.3)*s.Seconds()/samples, at)
		for k, l := range limits {
			vel = max(vel, math.Abs(at[k].Vel)/l.Speed)
			acc = max(acc, math.Abs(at[k].Acc)/l.Acc)
			if l.Jerk > 0 {
				jerk = max(jerk, math.Abs(at[k].Jerk)/l.Jerk)
			}
		}
	}
	require.LessOrEqual(t, vel, 1.)
	require.LessOrEqual(t, acc, 1.)
	require.LessOrEqual(t, jerk, 1.)
	return vel, acc, jerk
}

func TestKeyedLoop(t *testing.T) {
	loop, limits := keyed(t, 20, wave)
	s, err := New(loop, limits)
	require.NoError(t, err)
	_, acc, _ := checkLimits(t, s, limits)
	assert.Greater(t, acc, 0.99, "nothing is left to be had by pace alone")
	// What smoothness costs here, and in a loop of its kind at most.
	assert.Less(t, s.Seconds(), 1.05*s.Bound())
	checkSeam(t, s, len(limits))
}

// checkSeam compares the end of a loop with its start, and the derivatives with
// finite differences.
func checkSeam(t *testing.T, s *Schedule, axes int) {
	a, b := make([]track.State, axes), make([]track.State, axes)
	s.States(0, a)
	s.States(s.Seconds(), b)
	for i := range a {
		assert.InDelta(t, a[i].Pos, b[i].Pos, 1e-9)
		assert.InDelta(t, a[i].Vel, b[i].Vel, 1e-8)
		assert.InDelta(t, a[i].Acc, b[i].Acc, 1e-6)
	}
	assert.InDelta(t, 0, s.At(0).S, 1e-9)
	const h = 1e-5
	for k := range 1000 {
		at := float64(k) * s.Seconds() / 1000
		s.States(at, a)
		s.States(at+h, b)
		for i := range a {
			// Jerk is within its limit, here 1e4, half a step of which is
			// the error of a difference.
			assert.InDelta(t, a[i].Vel, (b[i].Pos-a[i].Pos)/h, h*1e3)
			assert.InDelta(t, a[i].Acc, (b[i].Vel-a[i].Vel)/h, h*1e4+1e-3)
		}
	}
}

func TestWholeFrames(t *testing.T) {
	loop, limits := keyed(t, 20, wave)
	s, err := New(loop, limits)
	require.NoError(t, err)
	rate := exact.New(24000, 1001)
	slow, frames, sec := s.WholeFrames(rate)
	assert.Equal(t, int64(math.Ceil(s.Seconds()*24000/1001)), frames)
	assert.Equal(t, exact.Int(frames), sec.Mul(rate))
	assert.InDelta(t, sec.Float(), slow.Seconds(), 1e-12)
	assert.Equal(t, s.Bound(), slow.Bound())
	checkLimits(t, slow, limits)
	assert.InDelta(t, s.At(s.Seconds()/3).S, slow.At(slow.Seconds()/3).S, 1e-9)
	assert.Panics(t, func() { s.Stretched(s.Seconds() / 2) })
}

// TestWhen undoes At.
func TestWhen(t *testing.T) {
	loop, limits := keyed(t, 20, wave)
	s, err := New(loop, limits)
	require.NoError(t, err)
	last := -1.
	for key := range 20 {
		at := s.When(float64(key))
		assert.InDelta(t, key, s.At(at).S, 1e-9)
		assert.Greater(t, at, last)
		last = at
	}
	assert.Less(t, last, s.Seconds())
}

// TestTurntable: a track that gains a turn a loop gains it in the new time too.
func TestTurntable(t *testing.T) {
	uniform, err := law.Named("uniform")
	require.NoError(t, err)
	turn, err := track.Turn(exact.Int(10), track.TurnSpec{Turns: exact.Int(1), Law: uniform})
	require.NoError(t, err)
	s, err := New(Loop{turn}, []Limit{{90, 90, 900}})
	require.NoError(t, err)
	assert.InEpsilon(t, 4*(1+between), s.Seconds(), 1e-9)
	at := make([]track.State, 1)
	for _, rounds := range []float64{-1, 0, 1, 7} {
		s.States(rounds*s.Seconds()+1e-9, at)
		assert.InDelta(t, 360*rounds, at[0].Pos, 1e-6)
	}
}

// TestNothingMoves: a path along which nothing moves keeps its own seconds.
func TestNothingMoves(t *testing.T) {
	still, err := track.Hold(exact.Int(10), 40)
	require.NoError(t, err)
	s, err := New(Loop{still, still}, []Limit{{1, 1, 0}, {1, 1, 1}})
	require.NoError(t, err)
	assert.InEpsilon(t, 10*(1+between), s.Seconds(), 1e-9)
}

// TestHoldsLast: where every axis rests, the path's own seconds are the least.
func TestHoldsLast(t *testing.T) {
	period := exact.Int(10)
	axis, err := track.Keys(period, track.KeysSpec{Keys: []track.Key{
		{Time: exact.Int(0), Hold: exact.Int(2)}, {Time: exact.Int(5), Pos: 100, Hold: exact.Int(1)},
	}})
	require.NoError(t, err)
	limits := []Limit{{200, 800, 8000}}
	s, err := New(Loop{axis}, limits)
	require.NoError(t, err)
	checkLimits(t, s, limits)
	assert.Less(t, s.Seconds(), 6.)
	still, at := 0., make([]track.State, 1)
	const samples = 10000
	for i := range samples {
		if s.States(float64(i)*s.Seconds()/samples, at); at[0].Pos < 1e-9 {
			still += s.Seconds() / samples
		}
	}
	assert.GreaterOrEqual(t, still, 1.95) // averaging rounds the corners of a hold
}

func TestErrors(t *testing.T) {
	straight := line(10, 1)
	fine := []Limit{{1, 1, 0}}
	nan := curve{1, 1, false, func(_ float64, to []track.State) { to[0] = track.State{Vel: math.NaN()} }}
	for _, c := range []struct {
		path   Path
		limits []Limit
		want   error
	}{
		{straight, nil, ErrLimit},
		{straight, []Limit{{0, 1, 0}}, ErrLimit},
		{straight, []Limit{{1, math.Inf(1), 0}}, ErrLimit},
		{straight, []Limit{{1, 1, -1}}, ErrLimit},
		{straight, []Limit{{1, math.NaN(), 0}}, ErrLimit},
		{line(0, 1), fine, ErrPath},
		{line(math.Inf(1), 1), fine, ErrPath},
		{line(1), nil, ErrPath},
		{nan, fine, ErrPath},
	} {
		_, err := New(c.path, c.limits)
		assert.ErrorIs(t, err, c.want)
	}
}

func BenchmarkKeyedLoop(b *testing.B) {
	for _, keys := range []int{20, 200} {
		b.Run(strconv.Itoa(keys), func(b *testing.B) {
			loop, limits := keyed(b, keys, wave)
			for b.Loop() {
				s, err := New(loop, limits)
				require.NoError(b, err)
				s.WholeFrames(exact.New(120000, 1001))
			}
		})
	}
}

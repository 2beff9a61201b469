package calibrate_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/calibrate"
)

// The factors of JCGM 100, table G.2, for 95.45 %.
func TestBoundHasStudentsFactor(t *testing.T) {
	for free, k := range map[float64]float64{1: 13.97, 2: 4.53, 3: 3.31, 4: 2.87, 5: 2.65, 10: 2.28, 20: 2.13, 50: 2.05, math.Inf(1): 2.000} {
		assert.InDelta(t, 3*k, calibrate.Estimate{Value: 7, Sigma: 3, Free: free}.Bound(), 3*0.005, "%v", free)
	}
	assert.Zero(t, calibrate.Estimate{Value: 7}.Bound())
	e := calibrate.Estimate{Value: 7, Sigma: 1, Free: math.Inf(1)}
	assert.True(t, e.Has(8.99) && e.Has(5.01))
	assert.False(t, e.Has(9.01) || e.Has(4.99))
}

// covered is how often the truth lies within what is told of it.
func covered(t *testing.T, try func(r *rand.Rand) (e calibrate.Estimate, truth float64)) {
	t.Helper()
	const times, share, slack = 1500, 0.9545, 0.02 // three and a half standard deviations of such a count
	r := rand.New(rand.NewPCG(1, 2))
	in := 0
	for range times {
		if e, truth := try(r); e.Has(truth) {
			in++
		}
	}
	assert.Greater(t, float64(in)/times, share-slack)
}

func evenly(r *rand.Rand, half float64) float64 { return (2*r.Float64() - 1) * half }

// The same two marks of a ruler that nobody has shifted are read to the same divisions each
// time: reading them again makes nothing surer, and a division between two readings says no
// more than that they are rounded.
func TestReadingTheSameMarksAgain(t *testing.T) {
	covered(t, func(r *rand.Rand) (calibrate.Estimate, float64) {
		ruler := calibrate.Ruler{Division: 1}
		truth, from := 0.99+0.02*r.Float64(), 10*r.Float64()
		seen := make([]calibrate.Stretch, 1+r.IntN(4))
		for i := range seen {
			seen[i] = calibrate.Stretch{Told: 250, From: math.Round(from), To: math.Round(from + 250*truth)}
		}
		s, err := ruler.Scale(seen)
		require.NoError(t, err)
		return s.Steps(80), 80 / truth
	})
	once, err := calibrate.Ruler{Division: 1}.Scale([]calibrate.Stretch{{250, 0, 250}})
	require.NoError(t, err)
	twice, err := calibrate.Ruler{Division: 1}.Scale([]calibrate.Stretch{{250, 0, 250}, {250, 0, 251}})
	require.NoError(t, err)
	assert.InDelta(t, once.Off(250).Bound(), twice.Off(250).Bound(), 1e-9, "a division is what rounding makes")
}

// Whatever a ruler is divided and wrong by, the truth is where it was said to be as often
// as was said.
func TestTheRulersBoundHolds(t *testing.T) {
	covered(t, func(r *rand.Rand) (calibrate.Estimate, float64) {
		ruler := calibrate.Ruler{Division: []float64{0.5, 1}[r.IntN(2)], Wrong: 0.3 * r.Float64()}
		truth, wrong := 0.9+0.2*r.Float64(), evenly(r, ruler.Wrong)
		var seen []calibrate.Stretch
		for range 1 + r.IntN(4) {
			from := 10 * r.Float64()
			seen = append(seen, calibrate.Stretch{Told: 250,
				From: calibrate.ToDivision(from, ruler.Division), To: calibrate.ToDivision(from+250*truth+wrong, ruler.Division)})
		}
		s, err := ruler.Scale(seen)
		if err != nil { // three in a thousand do contradict each other
			return calibrate.Estimate{}, 0
		}
		return s.Steps(80), 80 / truth
	})
}

func TestRuler(t *testing.T) {
	r := calibrate.Ruler{Division: 1, Wrong: 0.5}
	s, err := r.Scale([]calibrate.Stretch{{Told: 300, From: 10, To: 316}})
	require.NoError(t, err)
	// Two readings spread evenly over 1 mm and a ruler over 1 mm: three times 1/12, over 300.
	assert.InDelta(t, 1.02, s.Ratio.Value, 1e-12)
	assert.InDelta(t, math.Sqrt(3./12)/300, s.Ratio.Sigma, 1e-12)
	steps := s.Steps(80)
	assert.InDelta(t, 80/1.02, steps.Value, 1e-9)
	assert.InDelta(t, 80*s.Ratio.Sigma/(1.02*1.02), steps.Sigma, 1e-9)
	off := s.Off(240)
	assert.InDelta(t, 4.8, off.Value, 1e-9)
	assert.InDelta(t, 0.8, off.Bound(), 1e-3)
	assert.InDelta(t, 0.5, calibrate.ClassTwo(999), 1e-12)
	assert.InDelta(t, 0.7, calibrate.ClassTwo(1001), 1e-12)
	for _, bad := range [][]calibrate.Stretch{nil, {{Told: 0, To: 3}}, {{Told: 3, From: 2, To: 2}}} {
		_, err := r.Scale(bad)
		assert.Error(t, err)
	}
	// Both sides of the edge at which two readings contradict each other: three times
	// what four readings of a division leave open.
	edge := 3 * math.Sqrt(4./12)
	for by, ok := range map[float64]bool{edge * 0.99: true, edge * 1.01: false} {
		_, err := r.Scale([]calibrate.Stretch{{300, 0, 300}, {300, 0, 300 + by}})
		assert.Equal(t, ok, err == nil, "%v", by)
	}
}

// What is said to be needed is needed, and does.
func TestNeeded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := calibrate.Ruler{Division: rapid.Float64Range(0.1, 2).Draw(t, "division"), Wrong: rapid.Float64Range(0, 0.3).Draw(t, "wrong")}
		bound := rapid.Float64Range(0.02, 2).Draw(t, "bound")
		at := func(apart float64) float64 {
			s, err := r.Scale([]calibrate.Stretch{{Told: apart, To: apart}})
			require.NoError(t, err)
			return s.Off(200).Bound()
		}
		s, err := r.Scale([]calibrate.Stretch{{200, 0, 200}})
		require.NoError(t, err)
		n := s.Needed(200, bound)
		assert.LessOrEqual(t, at(n*1.001), bound)
		assert.Greater(t, at(n*0.999), bound)
	})
}

func TestSlips(t *testing.T) {
	for ratio, factor := range map[float64]float64{0.1: 10, 10: 0.1, 1 / 25.4: 25.4, 25.4: 1 / 25.4, 1 / 2.54: 2.54, 0.001: 1000, -0.1: 10} {
		s, err := calibrate.Ruler{Division: 1}.Scale([]calibrate.Stretch{{Told: 300, To: 300 * ratio}})
		require.NoError(t, err)
		slip, is := s.Slip()
		require.True(t, is, "%v", ratio)
		assert.InDelta(t, factor, slip.Factor, 1e-9)
	}
	for ratio, want := range map[float64]bool{0.1 * 1.14: true, 0.1 * 0.86: true, 0.1 * 1.16: false, 0.1 * 0.84: false, 1: false, 2: false, 0.5: false, 1.05: false} {
		s, err := calibrate.Ruler{Division: 1}.Scale([]calibrate.Stretch{{Told: 300, To: 300 * ratio}})
		require.NoError(t, err)
		_, is := s.Slip()
		assert.Equal(t, want, is, "%v", ratio)
	}
}

// A mark alone that is ten times off is told from both being so, and from none.
func TestOneMarkSlip(t *testing.T) {
	for name, c := range map[string]struct {
		told, from, to float64
		mark           string
		read, meant    float64
	}{
		"the far one, in cm":           {200, 100, 30, "b", 30, 300},
		"the near one, in cm":          {500, 10, 600, "a", 10, 100},
		"the far one, in mm for cm":    {20, 10, 300, "b", 300, 30},
		"the near one, backwards":      {-200, 30, 100, "a", 30, 300},
		"steps a seventh off":          {200, 100, 328.5, "", 0, 0},
		"and so much off that it asks": {200, 10, 271, "a", 10, 100},
		"as told":                      {200, 100, 300, "", 0, 0},
		"a ruler the other way round":  {200, 300, 100, "", 0, 0},
		"from 0 it is the whole way":   {300, 0, 30, "", 0, 0},
		"nothing fits":                 {200, 100, 63, "", 0, 0},
	} {
		got, is := calibrate.OneMarkSlip([]calibrate.Stretch{{c.told, c.from, c.to}})
		assert.Equal(t, c.mark != "", is, name)
		assert.Equal(t, c.mark, got.Mark, name)
		assert.InDelta(t, c.read, got.Read, 1e-9, name)
		assert.InDelta(t, c.meant, got.Meant, 1e-9, name)
	}
	_, is := calibrate.OneMarkSlip(nil)
	assert.False(t, is)
}

func TestTurned(t *testing.T) {
	s, err := calibrate.Turned(calibrate.Marked{Turns: 10, Beyond: 36}, 0.5)
	require.NoError(t, err)
	assert.InDelta(t, 1.01, s.Ratio.Value, 1e-12)
	assert.InDelta(t, 3.6, s.Off(360).Value, 1e-9)
	assert.InDelta(t, 0.05/3.6, s.TurnsUntil(0.05), 1e-9)
	assert.InDelta(t, 0.5/math.Sqrt(6)/3600, s.Ratio.Sigma, 1e-12)
	assert.InDelta(t, 180/math.Pi, calibrate.Arc(100, 100), 1e-9)
	one, _ := calibrate.Turned(calibrate.Marked{Turns: 1, Beyond: 0}, 0.5)
	assert.True(t, math.IsInf(one.TurnsUntil(1), 1))
	for _, bad := range []calibrate.Marked{{Turns: 0}, {Turns: -1}, {Turns: math.NaN()}, {1, 181}, {1, -181}} {
		_, err := calibrate.Turned(bad, 0.5)
		assert.Error(t, err, "%v", bad)
	}
}

func TestPlaysBoundHolds(t *testing.T) {
	covered(t, func(r *rand.Rand) (calibrate.Estimate, float64) {
		a := calibrate.Approaches{Division: 0.01}
		truth := 0.03 + 0.1*r.Float64()
		at, noise := r.Float64(), 0.004*r.Float64()
		for range 3 + r.IntN(3) {
			a.Up = append(a.Up, calibrate.ToDivision(at+noise*r.NormFloat64(), a.Division))
			a.Down = append(a.Down, calibrate.ToDivision(at+truth+noise*r.NormFloat64(), a.Division))
		}
		p, err := a.Play()
		if err != nil {
			return calibrate.Estimate{}, 0
		}
		return p.Estimate, truth
	})
}

func TestPlay(t *testing.T) {
	p, err := calibrate.Approaches{Up: []float64{1.02, 1.02, 1.03}, Down: []float64{1.1, 1.11, 1.1}, Division: 0.01}.Play()
	require.NoError(t, err)
	assert.True(t, p.Told)
	assert.InDelta(t, 0.08, p.Value, 1e-9)
	// A gauge that counts the other way says the same.
	q, err := calibrate.Approaches{Up: []float64{1.1, 1.11, 1.1}, Down: []float64{1.02, 1.02, 1.03}, Division: 0.01}.Play()
	require.NoError(t, err)
	assert.InDelta(t, p.Value, q.Value, 1e-12)
	// Both sides of the edge at which it can be told from nothing.
	edge := 2 * 0.01 / math.Sqrt(6)
	for by, told := range map[float64]bool{edge * 1.01: true, edge * 0.99: false} {
		p, err := calibrate.Approaches{Up: []float64{1, 1}, Down: []float64{1 + by, 1 + by}, Division: 0.01}.Play()
		require.NoError(t, err)
		assert.Equal(t, told, p.Told, "%v", by)
	}
	for _, bad := range []calibrate.Approaches{
		{Up: []float64{1}, Down: []float64{1, 1}, Division: 0.01},
		{Up: []float64{1, 1.3}, Down: []float64{1.1, 1.1}, Division: 0.01},
	} {
		_, err := bad.Play()
		assert.Error(t, err)
	}
}

func TestRungs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first := rapid.Float64Range(0.1, 1000).Draw(t, "first")
		top := first * rapid.Float64Range(1, 50).Draw(t, "times")
		r := calibrate.Rungs(first, top)
		assert.Equal(t, top, r[len(r)-1])
		assert.InDelta(t, first, r[0], first*1e-9)
		for i := 1; i < len(r); i++ {
			assert.Greater(t, r[i], r[i-1])
			assert.LessOrEqual(t, r[i]/r[i-1], 1.2*(1+1e-9))
		}
	})
	assert.Equal(t, []float64{3}, calibrate.Rungs(3, 3))
	assert.Panics(t, func() { calibrate.Rungs(0, 1) })
	assert.Panics(t, func() { calibrate.Rungs(2, 1) })
	assert.InDelta(t, 80, calibrate.KeptSpeed(100), 1e-9)
	assert.InDelta(t, 100, calibrate.KeptAcceleration(150), 1e-9)
}

func TestSwitchTimes(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	homing := func(place, off, noise float64) calibrate.Homing {
		return calibrate.Homing{Place: place, Seconds: 2.5 + (place+off)/25 + noise*r.NormFloat64()}
	}
	learn := func(noise float64, looks int) calibrate.SwitchTimes {
		var seen []calibrate.Homing
		for _, at := range []float64{40, 120, 200, 280, 360} {
			seen = append(seen, homing(at, 0, noise))
		}
		s, err := calibrate.TimeTheSwitch(seen, looks)
		require.NoError(t, err)
		return s
	}
	lost, bound := learn(0, 1).Look(homing(200, 0.8, 0))
	assert.InDelta(t, 0.8, lost.Value, 1e-9)
	assert.Less(t, bound, 0.8)
	assert.InDelta(t, 2*25e-3*math.Sqrt(1.2), lost.Bound(), 1e-3, "a millisecond at 25 mm/s, and the line's own")
	assert.InDelta(t, lost.Bound(), bound, 1e-12, "one look")
	covered(t, func(*rand.Rand) (calibrate.Estimate, float64) {
		off := evenly(r, 1)
		lost, _ := learn(0.004, 1).Look(homing(200, off, 0.004))
		return lost, off
	})
	// Of twenty looks where nothing is lost, all show nothing as often as is said; and what
	// it is said to see it does not miss.
	const times, slack = 400, 0.03
	quiet, seen := 0, 0
	for range times {
		s, all := learn(0.004, 20), true
		for range 20 {
			lost, bound := s.Look(homing(200, 0, 0.004))
			all = all && math.Abs(lost.Value) <= bound
		}
		if all {
			quiet++
		}
		if lost, bound := s.Look(homing(200, s.Sees(200), 0.004)); lost.Value > bound {
			seen++
		}
	}
	assert.Greater(t, float64(quiet)/times, 0.9545-slack)
	assert.Greater(t, float64(seen)/times, 0.977-slack)
	for name, bad := range map[string][]calibrate.Homing{
		"too few": {{0, 1}, {10, 2}}, "one place": {{10, 1}, {10, 1}, {10, 1}}, "no line": {{0, 1}, {10, 5}, {20, 1}, {30, 5}},
	} {
		_, err := calibrate.TimeTheSwitch(bad, 1)
		assert.Error(t, err, name)
	}
}

func TestLag(t *testing.T) {
	mean, single, err := calibrate.LagReadings{Seconds: []float64{0.06, 0.07, 0.06, 0.06, 0.05}, Grain: 0.01}.Lag()
	require.NoError(t, err)
	assert.InDelta(t, 0.06, mean.Value, 1e-9)
	assert.Greater(t, single.Sigma, mean.Sigma)
	for name, bad := range map[string][]float64{
		"too few": {0.06, 0.06}, "early": {0.06, -0.02, 0.06}, "wild": {0.06, 0.06, 0.06, 0.06, 0.6},
	} {
		_, _, err := calibrate.LagReadings{Seconds: bad, Grain: 0.01}.Lag()
		assert.Error(t, err, name)
	}
	covered(t, func(r *rand.Rand) (calibrate.Estimate, float64) {
		const lit, rate = 1.0, 50.0
		truth, open := 0.3*r.Float64(), r.Float64()
		l := calibrate.LagReadings{Grain: 1 / rate}
		for range 5 {
			// The clip begins at the lag, its frames at a phase of their own.
			began := truth + evenly(r, 0.5/rate)
			frame := int64(0) // the first whose exposure ends after the lamp was lit
			for began+(float64(frame)+open)/rate <= lit {
				frame++
			}
			l.Seconds = append(l.Seconds, calibrate.ByFrames(lit, frame, open, rate))
		}
		mean, _, err := l.Lag()
		require.NoError(t, err)
		return mean, truth
	})
}

// A counter is read twice for each try, as it is released and in the picture. Tries that
// always begin at one place of the counter are rounded alike.
func TestTheCountersBoundHolds(t *testing.T) {
	covered(t, func(r *rand.Rand) (calibrate.Estimate, float64) {
		const grain = 0.01
		truth, at := 0.05+0.1*r.Float64(), r.Float64()
		l := calibrate.LagReadings{Grain: grain, Pairs: true}
		for range 5 {
			l.Seconds = append(l.Seconds, calibrate.ToDivision(at+truth, grain)-calibrate.ToDivision(at, grain))
		}
		mean, _, err := l.Lag()
		require.NoError(t, err)
		return mean, truth
	})
	// Both sides of the edges at which a try is early, and another event.
	const close = 1e-6
	for _, x := range []struct {
		last float64
		fine bool
	}{{-0.01 + close, true}, {-0.01 - close, false}, {0.03 - close, true}, {0.03 + close, false}} {
		_, _, err := calibrate.LagReadings{Seconds: []float64{0, 0, 0, 0, x.last}, Grain: 0.01}.Lag()
		assert.Equal(t, x.fine, err == nil, "%v: %v", x.last, err)
	}
}

func TestUsual(t *testing.T) {
	now := calibrate.Drive{MotorSteps: 200, Microsteps: 16, Pitch: 2, Teeth: 20, Gear: 1}
	assert.InDelta(t, 80, now.Steps(), 1e-12)
	near := func(d calibrate.Drive, steps, sigma float64) []calibrate.Usual {
		return calibrate.UsualNear(d, calibrate.Estimate{Value: steps, Sigma: sigma, Free: math.Inf(1)})
	}
	u := near(now, 99.7, 0.2)
	require.NotEmpty(t, u)
	assert.Equal(t, "belt 2 mm x 16 teeth, 200 steps x 16 microsteps", u[0].Words)
	u = near(now, 161, 0.6)
	require.NotEmpty(t, u)
	assert.Equal(t, 32.0, u[0].Drive.Microsteps, "one thing alone is other than the file says")
	for _, u := range near(now, 99.7, 0.2) {
		assert.InDelta(t, 99.7, u.Drive.Steps(), 0.4001)
	}
	assert.Empty(t, near(now, 99.7, 0.01), "nothing usual lies within it")
	screw := calibrate.Drive{MotorSteps: 200, Microsteps: 16, Lead: 8, Gear: 1}
	assert.InDelta(t, 400, screw.Steps(), 1e-12)
	assert.Equal(t, "screw of 8 mm lead, 200 steps x 32 microsteps", near(screw, 801, 1)[0].Words)
	table := calibrate.Drive{MotorSteps: 200, Microsteps: 8, Gear: 36, Rotary: true}
	assert.InDelta(t, 160, table.Steps(), 1e-12)
	assert.Equal(t, "gear 37:1, 200 steps x 8 microsteps", near(table, 164.5, 0.1)[0].Words)
}

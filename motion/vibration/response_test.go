package vibration

import (
	"math"
	"math/cmplx"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/track"
	"seamrail/motion/vibration/spring"
)

func thereAndBack(t testing.TB, period exact.Rat, s track.ThereAndBackSpec) *track.Track {
	t.Helper()
	if s.Cycles == 0 {
		s.Cycles = 1
	}
	tr, err := track.ThereAndBack(period, s)
	require.NoError(t, err)
	return tr
}

// Harmonic there and back without a dwell is a pure cosine, and what a spring
// makes of a cosine at its foot is base excitation (Inman, Engineering
// Vibration, section 2.4): relative amplitude W^2/(w^2 - W^2 + 2i D w W) of
// the foot's.
func TestCosineAtTheFoot(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		sec := rapid.IntRange(1, 20).Draw(rt, "s")
		s := spring.Spring{Frequency: rapid.Float64Range(0.2, 60).Draw(rt, "f"), Damping: rapid.Float64Range(0.001, 0.5).Draw(rt, "damping")}
		tr := thereAndBack(t, exact.Int(int64(sec)), track.ThereAndBackSpec{From: 10, To: 50, Out: named(t, "harmonic")})
		r, err := Of(tr, s)
		require.NoError(t, err)
		foot, w := 2*math.Pi/float64(sec), s.Omega()
		answer := complex(-20*foot*foot, 0) / complex(w*w-foot*foot, 2*s.Damping*w*foot)
		slack := 1e-9 * (cmplx.Abs(answer) + 1e-6)
		for k := range 25 {
			at := float64(sec) * float64(k) / 25
			want := real(answer * cmplx.Exp(complex(0, foot*at)))
			assert.InDelta(t, want, r.At(at).Pos, slack, "at %g s", at)
		}
		assert.InDelta(t, cmplx.Abs(answer), math.Abs(r.Worst().Value), slack+1e-9*cmplx.Abs(answer))
	})
}

// The steady state is what many rounds of classical Runge-Kutta come to.
func TestSteadyStateIsWhatManyRoundsComeTo(t *testing.T) {
	tr := thereAndBack(t, exact.Int(1), track.ThereAndBackSpec{
		From: 0, To: 30, Out: named(t, "3-4-5"), Back: named(t, "trapezoidal"),
		OutShare: exact.New(2, 5), DwellFar: exact.New(1, 10), DwellNear: exact.New(3, 20),
	})
	s := spring.Spring{Frequency: 4.3, Damping: 0.12}
	r, err := Of(tr, s)
	require.NoError(t, err)
	var x spring.State
	breaks := tr.Breaks()
	for range 8 {
		step := integrated(s, func(at float64) float64 { return tr.At(at).Acc }, breaks)
		x = s.Free(1).Times(x).Plus(step)
	}
	assert.InDelta(t, x.Pos, r.At(0).Pos, 1e-8)
	assert.InDelta(t, x.Vel, r.At(0).Vel, 1e-7)
	assert.InDelta(t, 0, s.Swing(spring.State{Pos: r.First(0).Pos, Vel: r.First(0).Vel}), 1e-12, "a take begins at rest")
	assert.InDelta(t, r.At(0).Pos, r.First(20).Pos, 1e-12, "and forgets that it did")
	assert.Positive(t, r.Settles(0.01))
	assert.Less(t, s.Swing(spring.State{Pos: r.At(0).Pos - r.First(r.Settles(0.01)).Pos, Vel: r.At(0).Vel - r.First(r.Settles(0.01)).Vel}),
		0.0101*s.Swing(r.At(0)))
}

// A jump of speed is a blow: a carriage at constant speed that turns on the
// spot hits its load twice a round, by twice its speed.
func TestUniformTurnsAreBlows(t *testing.T) {
	tr := thereAndBack(t, exact.Int(2), track.ThereAndBackSpec{From: 0, To: 10, Out: named(t, "uniform")})
	s := spring.Spring{Frequency: 3, Damping: 0.05}
	r, err := Of(tr, s)
	require.NoError(t, err)
	before, after := r.At(1-1e-12), r.At(1)
	assert.InDelta(t, 20, after.Vel-before.Vel, 1e-6)
	assert.InDelta(t, before.Pos, after.Pos, 1e-9)
	assert.InDelta(t, r.At(0.3).Pos, -r.At(1.3).Pos, 1e-12, "out and back mirror one another")
}

func TestWorstIsNowhereExceeded(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		laws := []string{"harmonic", "3-4-5", "modified-sine", "trapezoidal", "seven-segment"}
		tr := thereAndBack(t, exact.Int(2), track.ThereAndBackSpec{
			To: 40, Out: named(t, rapid.SampledFrom(laws).Draw(rt, "out")), Back: named(t, rapid.SampledFrom(laws).Draw(rt, "back")),
			DwellFar: exact.New(rapid.Int64Range(0, 9).Draw(rt, "dwell"), 10),
		})
		r, err := Of(tr, spring.Spring{Frequency: rapid.Float64Range(0.5, 30).Draw(rt, "f"), Damping: 0.03})
		require.NoError(t, err)
		worst := r.Worst()
		assert.InDelta(t, worst.Value, r.At(worst.Time).Pos, 1e-9*math.Abs(worst.Value))
		for k := range 2000 {
			assert.LessOrEqual(t, math.Abs(r.At(float64(k)/1000).Pos), math.Abs(worst.Value)*(1+1e-6))
		}
	})
}

// In a dwell the load swings freely: its envelope falls by the law of damping,
// and what it begins with is what the move left and what was left before.
func TestRests(t *testing.T) {
	tr := thereAndBack(t, exact.Int(4), track.ThereAndBackSpec{
		From: 5, To: 25, Out: named(t, "3-4-5"), DwellFar: exact.Int(3), Phase: exact.New(1, 2),
	})
	s := spring.Spring{Frequency: 4, Damping: 0.05}
	r, err := Of(tr, s)
	require.NoError(t, err)
	rests := r.Rests()
	require.Len(t, rests, 1, "a dwell through the seam is one")
	rest := rests[0]
	assert.InDelta(t, 3, rest.To-rest.From, 1e-12)
	assert.InDelta(t, 25, rest.Pos, 1e-12)
	assert.InDelta(t, rest.Left, s.Swing(r.At(rest.To)), 1e-12)
	out := after(s, named(t, "3-4-5"), 0.5)
	after := spring.State{Pos: 20 * out.Pos, Vel: 20 * out.Vel}
	// Round once from the start of the dwell: it fades, the way back adds its
	// mirror image, the way out adds itself.
	back := s.Free(0.5).Times(after)
	start, err := s.Steady(4, after.Plus(spring.State{Pos: -back.Pos, Vel: -back.Vel}))
	require.NoError(t, err)
	assert.InDelta(t, s.Swing(start), rest.Swing, 1e-9)
	assert.InDelta(t, rest.Swing*math.Exp(-0.05*s.Omega()*3), rest.Left, 1e-12)
	assert.InDelta(t, s.Fades(rest.Swing, rest.Left), 3, 1e-9)
	assert.Zero(t, s.Fades(1, 2))
}

func TestALoopThatGrows(t *testing.T) {
	tr := thereAndBack(t, exact.Int(1), track.ThereAndBackSpec{To: 10, Out: named(t, "3-4-5")})
	_, err := Of(tr, spring.Spring{Frequency: 5})
	assert.ErrorIs(t, err, spring.ErrGrows, "five whole swings a round, and no damping")
	_, err = Of(tr, spring.Spring{Frequency: 5.3})
	assert.NoError(t, err)
	_, err = Of(tr, spring.Spring{Frequency: 5, Damping: 0.001})
	assert.NoError(t, err)
	assert.Panics(t, func() { _, _ = Of(tr, spring.Spring{}) })
}

func TestSpringsThatAreNone(t *testing.T) {
	for _, s := range []spring.Spring{{}, {Frequency: 0.01, Damping: 0.1}, {Frequency: 2000, Damping: 0.1}, {Frequency: 5, Damping: -0.1}, {Frequency: 5, Damping: 0.95}, {Frequency: math.NaN(), Damping: 0}, {Frequency: 5, Damping: math.NaN()}} {
		assert.Error(t, s.Check(), "%v", s)
	}
	assert.False(t, spring.Spring{}.Known())
	assert.InDelta(t, 0.2/math.Sqrt(1-0.36), spring.Spring{Frequency: 5, Damping: 0.6}.Period(), 1e-15)
}

func BenchmarkOf(b *testing.B) {
	tr := thereAndBack(b, exact.New(6006, 5000), track.ThereAndBackSpec{To: 60, Out: named(b, "3-4-5")})
	s := spring.Spring{Frequency: 8, Damping: 0.03}
	for b.Loop() {
		r, err := Of(tr, s)
		if err != nil {
			b.Fatal(err)
		}
		r.Worst()
	}
}

// A constant acceleration a from rest takes the load to the step response of a damped
// spring (Inman, Engineering Vibration, section 3.2): x = -a/w2 (1 - e (cos wd t +
// z/sqrt(1-z2) sin wd t)), however the time is cut.
func TestCarriedIsTheStepResponse(t *testing.T) {
	s := spring.Spring{Frequency: 6, Damping: 0.05}
	const acc, sec = 300.0, 0.37
	w := 2 * math.Pi * 6
	z := 0.05
	wd := w * math.Sqrt(1-z*z)
	want := -acc / (w * w) * (1 - math.Exp(-z*w*sec)*(math.Cos(wd*sec)+z/math.Sqrt(1-z*z)*math.Sin(wd*sec)))
	even := func(float64) float64 { return acc }
	assert.InDelta(t, want, Carried(s, even, []float64{0, sec}).Pos, 1e-12)
	assert.InDelta(t, want, Carried(s, even, []float64{0, 0.1, 0.11, sec}).Pos, 1e-12)
	assert.Zero(t, Carried(s, even, []float64{0}).Pos)
}

package brightness_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/footage/brightness"
	"seamrail/motion/plan/sample/many"
)

// light is how bright a take is over its frames, in stops, before noise.
type light func(frame float64) float64

// means encodes a light about a grey by a power of 2.2.
func means(frames int, noise float64, seed uint64, l light) []float64 {
	r := rand.New(rand.NewPCG(seed, 3))
	out := make([]float64, frames)
	for k := range out {
		out[k] = 0.4 * math.Exp2((l(float64(k))+noise*r.NormFloat64())/2.2)
	}
	return out
}

func measure(t require.TestingT, v []float64, rate string, lamps ...exact.Rat) brightness.Light {
	r, err := exact.Parse(rate)
	require.NoError(t, err)
	got, err := brightness.Measure(brightness.Question{Means: v, Rate: r, Lamps: lamps})
	require.NoError(t, err)
	return got
}

// 100 Hz filmed at 24000/1001: the nearest multiple is the fourth, 96000/1001, and the beat
// 100 - 96000/1001 = 4100/1001 Hz.
func TestFlickerAndItsLamp(t *testing.T) {
	beat := 4100.0 / 1001
	got := measure(t, means(480, 0.01, 1, func(k float64) float64 {
		return 0.05 * math.Sin(2*math.Pi*beat*k*1001/24000+1)
	}), "24000/1001", exact.Int(300))
	require.Len(t, got.Flicker, 1)
	f := got.Flicker[0]
	assert.InDelta(t, beat, f.Frequency, 4*f.FrequencyDoubt)
	assert.Less(t, f.FrequencyDoubt, 0.001)
	assert.InDelta(t, 0.05, f.Stops, 4*f.StopsDoubt)
	// 2^0.05 = 1.03526, 2^-0.05 = 0.96594: their difference over their sum is 3.464 %.
	assert.InDelta(t, 3.464, f.Percent, 0.2)
	assert.True(t, f.Lamps[0].Fits)
	assert.True(t, f.Lamps[0].Ripple.Equal(exact.Int(100)))
	assert.True(t, f.Lamps[0].Beat.Equal(exact.New(4100, 1001)))
	assert.False(t, f.Lamps[1].Fits)
	assert.False(t, f.Lamps[2].Fits)
	assert.InDelta(t, 0.01, got.Left, 0.002)
}

// Two lamps at once, one at half the rate, where a sine is nothing.
func TestTwoFlickers(t *testing.T) {
	got := measure(t, means(600, 0.005, 2, func(k float64) float64 {
		return 0.04*math.Sin(math.Pi*k+0.5) + 0.03*math.Sin(2*math.Pi*k*0.123)
	}), "40", exact.Int(100))
	require.Len(t, got.Flicker, 2)
	// What is seen of a sine at half the rate is every frame its sine of the phase.
	assert.InDelta(t, 0.04*math.Sin(0.5), got.Flicker[1].Stops, 4*got.Flicker[1].StopsDoubt)
	assert.InDelta(t, 20, got.Flicker[1].Frequency, 2*got.Flicker[1].FrequencyDoubt)
	assert.True(t, got.Flicker[1].Lamps[0].Beat.Equal(exact.Int(20)), "100 Hz of 40 a second")
	assert.True(t, got.Flicker[1].Lamps[0].Fits)
	assert.InDelta(t, 0.123*40, got.Flicker[0].Frequency, 0.01)
	assert.InDelta(t, 0.03, got.Flicker[0].Stops, 4*got.Flicker[0].StopsDoubt)
}

func TestStepsAreFoundWhereTheyAre(t *testing.T) {
	got := measure(t, means(300, 0.01, 3, func(k float64) float64 {
		v := 0.1 * k / 300
		if k >= 90 {
			v -= 1.0 / 3
		}
		if k >= 211 {
			v += 0.1
		}
		return v
	}), "25")
	require.Len(t, got.Steps, 2)
	assert.Equal(t, 90, got.Steps[0].Frame)
	assert.InDelta(t, -1.0/3, got.Steps[0].Stops, 0.02)
	assert.Equal(t, 211, got.Steps[1].Frame)
	assert.InDelta(t, 0.1, got.Steps[1].Stops, 0.02)
	assert.Empty(t, got.Flicker)
}

// 0.1 stops in ten seconds are 0.6 a minute.
func TestDrift(t *testing.T) {
	got := measure(t, means(250, 0.01, 4, func(k float64) float64 { return 0.1 * k / 250 }), "25")
	assert.InDelta(t, 0.6, got.Drift, 4*got.DriftDoubt)
	assert.Less(t, got.DriftDoubt, 0.05)
	assert.Empty(t, got.Steps)
}

// A flash is no step, a slow rise is none, and flicker is none.
func TestWhatIsNoStep(t *testing.T) {
	for name, l := range map[string]light{
		"flash":   func(k float64) float64 { return math.Exp2(-math.Abs(k-100)) / 2 },
		"rise":    func(k float64) float64 { return 0.5 / (1 + math.Exp(-(k-120)/12)) },
		"flicker": func(k float64) float64 { return 0.2 * math.Sin(0.9*k) },
		"turning": func(k float64) float64 { return 0.3 * math.Sin(0.06*k) },
	} {
		assert.Empty(t, measure(t, means(240, 0.005, 5, l), "24").Steps, name)
	}
}

// Steps and flicker in one take: neither hides the other.
func TestStepsUnderFlicker(t *testing.T) {
	got := measure(t, means(400, 0.005, 6, func(k float64) float64 {
		v := 0.03 * math.Sin(2*math.Pi*0.17*k)
		if k >= 150 {
			v += 0.5
		}
		return v
	}), "24")
	require.Len(t, got.Steps, 1)
	assert.InDelta(t, 150, got.Steps[0].Frame, 0)
	assert.InDelta(t, 0.5, got.Steps[0].Stops, 0.03)
	require.Len(t, got.Flicker, 1)
	assert.InDelta(t, 0.17*24, got.Flicker[0].Frequency, 0.01)
}

// Noise of any size and any drift makes neither flicker nor steps.
func TestCleanTakesHaveNeither(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	for k := range many.Times(200, 5000) {
		noise, drift := 0.1*r.Float64(), r.NormFloat64()/2000
		frames := 30 + r.IntN(700)
		got := measure(t, means(frames, noise, r.Uint64(), func(k float64) float64 { return drift * k }), "24")
		assert.Empty(t, got.Flicker, "take %d of %d frames, noise %g", k, frames, noise)
		assert.Empty(t, got.Steps, "take %d of %d frames, noise %g", k, frames, noise)
	}
}

// One step a take, anywhere but at its ends, of twenty times the noise: found where it is.
func TestStepsOfAllSizes(t *testing.T) {
	r := rand.New(rand.NewPCG(71, 72))
	for i := range many.Times(100, 2000) {
		noise := 0.02 * r.Float64()
		size := (0.05 + 20*noise + r.Float64()) * float64(1-2*r.IntN(2))
		frames := 80 + r.IntN(200)
		at := 20 + r.IntN(frames-40)
		got := measure(t, means(frames, noise, r.Uint64(), func(k float64) float64 {
			if int(k) < at {
				return 0
			}
			return size
		}), "24")
		require.Len(t, got.Steps, 1, "take %d: %g at %d of %d, noise %g", i, size, at, frames, noise)
		assert.Equal(t, at, got.Steps[0].Frame)
		assert.InDelta(t, size, got.Steps[0].Stops, 6*got.Steps[0].Doubt+1e-9)
		assert.Empty(t, got.Flicker)
	}
}

// Over many takes frequency and amplitude scatter as they are said to.
func TestDoubtsAreThoseOfTrials(t *testing.T) {
	var frequency, amplitude, drift float64
	trials := many.Times(40, 1000)
	for k := range trials {
		got := measure(t, means(300, 0.02, uint64(k), func(k float64) float64 { return 0.04 * math.Sin(2*math.Pi*0.2037*k) }), "25")
		require.Len(t, got.Flicker, 1)
		f := got.Flicker[0]
		frequency += math.Pow((f.Frequency-0.2037*25)/f.FrequencyDoubt, 2) / float64(trials)
		amplitude += math.Pow((f.Stops-0.04)/f.StopsDoubt, 2) / float64(trials)
		drift += math.Pow(got.Drift/got.DriftDoubt, 2) / float64(trials)
	}
	for name, v := range map[string]float64{"frequency": frequency, "amplitude": amplitude, "drift": drift} {
		assert.InDelta(t, 1, v, 5*math.Sqrt(2/float64(trials)), name)
	}
}

// A tone of any frequency that noise does not hide is found, and at that frequency.
func TestTonesAreFound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		frames := rapid.IntRange(100, 400).Draw(t, "frames")
		f := rapid.Float64Range(6/float64(frames), 0.5-6/float64(frames)).Draw(t, "cycles a frame")
		phase := rapid.Float64Range(0, 7).Draw(t, "phase")
		got := measure(t, means(frames, 0.01, rapid.Uint64().Draw(t, "seed"), func(k float64) float64 { return 0.04 * math.Sin(2*math.Pi*f*k+phase) }), "1")
		if len(got.Flicker) != 1 {
			t.Fatalf("%d kinds of flicker", len(got.Flicker))
		}
		assert.InDelta(t, f, got.Flicker[0].Frequency, 6*got.Flicker[0].FrequencyDoubt)
	})
}

func TestQuestionsThatAreNone(t *testing.T) {
	good := means(20, 0, 0, func(float64) float64 { return 0 })
	for want, q := range map[string]brightness.Question{
		"16 or more": {Means: good[:15], Rate: exact.Int(24)},
		"above 0":    {Means: good},
		"frame 3 is": {Means: append(append([]float64{}, 0, 0, 1, math.NaN()), good...), Rate: exact.Int(24)},
		"exponent":   {Means: good, Rate: exact.Int(24), Exponent: 9},
		"ripples at": {Means: good, Rate: exact.Int(24), Lamps: []exact.Rat{{}}},
	} {
		_, err := brightness.Measure(q)
		assert.ErrorContains(t, err, want)
	}
	still := measure(t, good, "24")
	assert.Empty(t, still.Steps)
	assert.Empty(t, still.Flicker)
	assert.InDelta(t, 0, still.Drift, 1e-6)
	black := measure(t, make([]float64, 40), "24")
	assert.Empty(t, black.Steps)
}

func BenchmarkMeasure15000Frames(b *testing.B) {
	v := means(15000, 0.01, 1, func(k float64) float64 { return 0.05 * math.Sin(1.1*k) })
	for b.Loop() {
		measure(b, v, "25")
	}
}

// moving is what a picture that moves does to its own brightness: it goes up and down by up to half
// a stop, smoothly, as what is bright comes into view and goes.
func moving(r *rand.Rand, frames int) light {
	type wave struct{ size, rate, phase float64 }
	var all []wave
	for range 3 {
		all = append(all, wave{0.15 * r.Float64(), 2 * math.Pi / (120 + 300*r.Float64()), 7 * r.Float64()})
	}
	begin := r.Float64() * float64(frames) / 2
	end := begin + float64(frames)*(0.4+r.Float64())
	return func(k float64) (v float64) {
		u := math.Min(math.Max((k-begin)/(end-begin), 0), 1)
		for _, w := range all { // an eased move, which begins and ends
			v += w.size * math.Sin(w.phase+w.rate*(end-begin)*u*u*u*(10-15*u+6*u*u))
		}
		return v
	}
}

// A picture that moves, with flicker and grain, has no step of its own, and one of the exposure is
// found in it where it is: of half a stop as in a twentieth of one.
func TestAStepBesideAPictureThatMoves(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 18))
	for i := range many.Times(40, 400) {
		frames := 200 + r.IntN(300)
		other, at := moving(r, frames), 70+r.IntN(frames-140)
		size := (0.06 + 0.4*r.Float64()) * float64(1-2*r.IntN(2))
		flicker, beat, seed := 0.13*r.Float64(), 0.3+2.5*r.Float64(), r.Uint64()
		seen := func(step float64) brightness.Light {
			return measure(t, means(frames, 0.003, seed, func(k float64) float64 {
				v := other(k) + flicker*math.Sin(beat*k)
				if int(k) >= at {
					v += step
				}
				return v
			}), "120")
		}
		assert.Empty(t, seen(0).Steps, "take %d", i)
		got := seen(size)
		require.Len(t, got.Steps, 1, "take %d: %g at %d of %d, flicker %g at %g", i, size, at, frames, flicker, beat)
		assert.Equal(t, at, got.Steps[0].Frame)
		assert.InDelta(t, size, got.Steps[0].Stops, 0.03)
	}
}

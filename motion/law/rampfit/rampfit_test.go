package rampfit_test

import (
	"fmt"
	"math"
	"math/rand"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/law"
	"seamrail/motion/law/rampfit"
	"seamrail/motion/plan/sample/many"
)

// seen is a way of a law as it is read off frames: at even times, from a little before to
// a little after, to a standard uncertainty.
func seen(l law.Law, start, way, from, to, rate, sure float64, chance *rand.Rand) rampfit.Take {
	t := rampfit.Take{Grain: 1e-6}
	for k := 0; float64(k)/rate <= start+way+0.5; k++ {
		sec := float64(k) / rate
		p := from + (to-from)*l.At(math.Max(0, math.Min(1, (sec-start)/way))).S
		t.Readings = append(t.Readings, rampfit.Reading{Seconds: sec, Position: p + sure*chance.NormFloat64()})
	}
	return t
}

// The time that each ramp lasts is found within its uncertainty, whatever the noise.
func TestTheRampIsFound(t *testing.T) {
	many.Check(t, 15, func(t *rapid.T) {
		way := rapid.Float64Range(1, 20).Draw(t, "way")
		share := rapid.Float64Range(0.06, 0.5).Draw(t, "share")
		sure := rapid.SampledFrom([]float64{0.02, 0.1, 0.3}).Draw(t, "sure")
		from, to := 0.0, rapid.SampledFrom([]float64{-300, 120, 500}).Draw(t, "to")
		l, err := law.Trapezoidal(share)
		require.NoError(t, err)
		chance := rand.New(rand.NewSource(rapid.Int64().Draw(t, "seed")))
		take := seen(l, 0.7, way, from, to, 24, sure, chance)
		f, err := rampfit.Find(take, sure)
		require.NoError(t, err)
		for _, x := range f.All {
			if x.Law != "trapezoidal" {
				continue
			}
			require.True(t, x.Fits, "%+v", x)
			require.InDelta(t, share, x.Ramp, 5*x.RampSure+1e-9)
			require.InDelta(t, share*way, x.Seconds, 5*x.SecondsSure+1e-9)
			require.InDelta(t, way, x.Way, 5*x.WaySure+1e-9)
			require.InDelta(t, sure, x.RMS, sure/2)
			return
		}
		t.Fatal("it was not laid through")
	})
}

// Of laws that differ by more than the readings are unsure, the right one is named.
func TestTheLawIsNamed(t *testing.T) {
	seven, err := law.SevenSegment(0.3, 0.4)
	require.NoError(t, err)
	trapezoidal, err := law.Trapezoidal(0.2)
	require.NoError(t, err)
	all := []law.Law{seven, trapezoidal}
	for _, name := range []string{"harmonic", "cycloidal", "modified-sine", "3-4-5", "4-5-6-7", "uniform"} {
		l, err := law.Named(name)
		require.NoError(t, err)
		all = append(all, l)
	}
	for _, l := range all {
		f, err := rampfit.Find(seen(l, 0.5, 4, 10, 310, 60, 0.02, rand.New(rand.NewSource(7))), 0.02)
		require.NoError(t, err)
		assert.Equal(t, l.Name(), f.Best.Law)
		assert.True(t, f.Best.Fits, l.Name())
		assert.InDelta(t, 4, f.Best.Way, 5*f.Best.WaySure, l.Name())
		assert.InDelta(t, 10, f.Best.From, 0.1, l.Name())
		assert.InDelta(t, 310, f.Best.To, 0.1, l.Name())
		if l == seven {
			assert.InDelta(t, 0.3, f.Best.Ramp, 5*f.Best.RampSure)
			assert.InDelta(t, 0.4, f.Best.JerkShare, 5*f.Best.JerkSure)
		}
	}
}

// An end that is slowed down to for three times as long as the beginning gathered speed is
// no law of the family, and none is said to fit; the same read ten times worse may be.
func TestNoneFits(t *testing.T) {
	lopsided := func(u float64) float64 { // an even speed up for 0.1, an even slowing for 0.4
		v := 1 / 0.75
		switch {
		case u <= 0:
			return 0
		case u < 0.1:
			return v / 0.2 * u * u
		case u < 0.6:
			return v * (u - 0.05)
		case u < 1:
			return 1 - v/0.8*(1-u)*(1-u)
		}
		return 1
	}
	take := rampfit.Take{}
	for k := range 150 {
		sec := float64(k) / 24
		take.Readings = append(take.Readings, rampfit.Reading{Seconds: sec, Position: 300 * lopsided((sec-0.5)/5)})
	}
	f, err := rampfit.Find(take, 0.1)
	require.NoError(t, err)
	assert.False(t, f.Best.Fits)
	assert.Greater(t, f.Best.RMS, 1.0)
	for _, x := range f.All {
		assert.False(t, x.Fits, x.Law)
	}
	f, err = rampfit.Find(take, 30)
	require.ErrorContains(t, err, "nothing moves", "%v", f)
}

// What comes back is cut where it turns round.
func TestATakeThereAndBack(t *testing.T) {
	l, err := law.Trapezoidal(0.25)
	require.NoError(t, err)
	take := rampfit.Take{Grain: 0.1}
	for k := range 300 {
		sec := float64(k) / 24
		p := l.At((sec - 1) / 4).S
		if sec > 6 {
			p = 1 - l.At((sec-6)/4).S
		}
		take.Readings = append(take.Readings, rampfit.Reading{Seconds: sec, Position: math.Round(1000*p) / 10})
	}
	f, err := rampfit.Find(take, 0)
	require.NoError(t, err)
	assert.Equal(t, "trapezoidal", f.Best.Law)
	assert.InDelta(t, 1, f.Best.Seconds, 5*f.Best.SecondsSure)
	assert.InDelta(t, 0.1/math.Sqrt(3), f.Sure, 1e-12, "evenly spread over one of the last digit either way: JCGM 100:2008, 4.3.7")
}

// Several takes tell whether the ramp keeps its time or its share of the way.
func TestTogether(t *testing.T) {
	takes := func(shareOf func(way float64) float64) (out []rampfit.Found) {
		for _, way := range []float64{2, 4, 8} {
			l, err := law.Trapezoidal(shareOf(way))
			require.NoError(t, err)
			f, err := rampfit.Find(seen(l, 0.5, way, 0, 200, 48, 0.05, rand.New(rand.NewSource(3))), 0.05)
			require.NoError(t, err)
			out = append(out, f)
		}
		return out
	}
	even := rampfit.Compare(takes(func(way float64) float64 { return 0.6 / way }))
	assert.True(t, even.TimeHolds)
	assert.False(t, even.ShareDoes)
	assert.InDelta(t, 0.6, even.Seconds.Value, 5*even.Seconds.Sure)
	shared := rampfit.Compare(takes(func(float64) float64 { return 0.2 }))
	assert.True(t, shared.ShareDoes)
	assert.False(t, shared.TimeHolds)
	assert.InDelta(t, 0.2, shared.Share.Value, 5*shared.Share.Sure)
}

func TestRead(t *testing.T) {
	rows := func(head, format string) string {
		var b strings.Builder
		b.WriteString(head)
		for k := range 12 {
			fmt.Fprintf(&b, format, k, float64(k)*1.25)
		}
		return b.String()
	}
	take, err := rampfit.Read("t.csv", rows("# read off the screen\nframe;mm\n\n", "%d;%.2f\n"), exact.Int(24))
	require.NoError(t, err)
	require.Len(t, take.Readings, 12)
	assert.InDelta(t, 11./24, take.Readings[11].Seconds, 1e-12)
	assert.InDelta(t, 0.01, take.Grain, 1e-12)
	take, err = rampfit.Read("t.csv", rows("", "%d, %.1f\n"), exact.Rat{})
	require.NoError(t, err)
	assert.InDelta(t, 11, take.Readings[11].Seconds, 1e-12)
	_, err = rampfit.Read("t.csv", rows("", "%d, %.1f\n"), exact.Int(24))
	assert.ErrorContains(t, err, "no head that says it counts frames")
	for text, want := range map[string]string{
		"":                               "t.csv: the take 0 readings must be 12 or more",
		rows("frame,px\n", "%d,%.1f\n"):  `t.csv:1: the head "frame" counts frames, and nothing says how long one is; give --capture`,
		rows("", "%d,%.1f\n") + "7,1\n":  `t.csv:13: the line "7,1" must come after the line above it: times rise`,
		rows("", "%d,%.1f\n") + "99,x\n": `t.csv:13: the line "99,x" must be two numbers`,
		rows("", "%d,%.1f,3\n"):          `t.csv:1: the line "0,0.0,3" must have two columns`,
		rows("", "%d,%.1f\n") + "99,NaN": `t.csv:13: the line "99,NaN" must be two numbers`,
	} {
		_, err := rampfit.Read("t.csv", text, exact.Rat{})
		require.Error(t, err)
		assert.Contains(t, err.Error(), want)
	}
}

func TestTakesThatTellNothing(t *testing.T) {
	var still rampfit.Take
	for k := range 20 {
		still.Readings = append(still.Readings, rampfit.Reading{Seconds: float64(k), Position: 5})
	}
	_, err := rampfit.Find(still, 0.1)
	require.ErrorContains(t, err, "nothing moves in it")
	back := still
	back.Readings = nil
	for k := range 20 {
		back.Readings = append(back.Readings, rampfit.Reading{Seconds: float64(k), Position: math.Max(0, 9-float64(k))})
	}
	_, err = rampfit.Find(rampfit.Take{Readings: back.Readings[:5]}, 0.1)
	require.ErrorContains(t, err, "one way of it has 5 readings")
}

package rampfit_test

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/controller/firmware"
	"seamrail/motion/law"
	"seamrail/motion/law/rampfit"
)

// board is what a board that plans for itself makes of one line from rest to rest, to the
// step of 1/80 mm: places every so often, told by its model of slices, which knows no law.
func board(t *testing.T, acceleration, feed, mm, rate float64) (all []rampfit.Reading) {
	t.Helper()
	const perMM = 80
	b := firmware.Board{
		Blocks: 16, JunctionDeviation: 0.01, Axes: []firmware.Axis{{StepsPerUnit: perMM, Acceleration: acceleration, Speed: 400}},
		Timer: firmware.Timer{},
	}
	type slice struct {
		from, to firmware.Instant
		steps    int64
	}
	var ran []slice
	lines := []string{fmt.Sprintf("G1 X%.3f F%.0f", mm, feed*60)}
	_, err := b.Play(func() (string, bool) {
		if len(lines) == 0 {
			return "", false
		}
		line := lines[0]
		lines = lines[1:]
		return line, true
	}, "X", firmware.Counts{}, firmware.Link{Baud: 115200, Receive: 127}, firmware.Watch{Slice: func(s *firmware.Slice, start firmware.Instant) {
		const eighths = 8
		ran = append(ran, slice{start, start + s.Lasts(), s.StepsAfter(0, s.From+eighths*s.Pulses) - s.StepsAfter(0, s.From)})
	}})
	require.NoError(t, err)
	require.NotEmpty(t, ran)
	end := ran[len(ran)-1].to
	for k := 0; ; k++ {
		at := firmware.Lasting(float64(k)/rate - 0.5)
		steps := 0.0
		for _, s := range ran {
			steps += float64(s.steps) * math.Max(0, math.Min(1, float64(at-s.from)/float64(s.to-s.from)))
		}
		all = append(all, rampfit.Reading{Seconds: float64(k) / rate, Position: math.Round(steps) / perMM})
		if at > end+firmware.Lasting(0.5) {
			return all
		}
	}
}

// What a board makes of one line is a trapezoid by its settings: the ramp is the speed over
// the acceleration. The model of the board cuts it into slices and steps and knows no law.
func TestABoardGoesByATrapezoid(t *testing.T) {
	for _, x := range []struct{ acceleration, feed, mm float64 }{{100, 60, 200}, {500, 150, 300}, {50, 40, 120}} {
		take := rampfit.Take{Readings: board(t, x.acceleration, x.feed, x.mm, 60)}
		const slice = 0.01 // s: its rates are steady within one, which moves places by so much of a ramp
		sure := x.acceleration*slice*slice/2 + 0.0125
		f, err := rampfit.Find(take, sure)
		require.NoError(t, err)
		assert.Equal(t, "trapezoidal", f.Best.Law, "%v", x)
		assert.True(t, f.Best.Fits, "%+v", f.Best)
		assert.InDelta(t, x.feed/x.acceleration, f.Best.Seconds, slice, "%v", x)
		assert.InDelta(t, x.mm/x.feed+x.feed/x.acceleration, f.Best.Way, slice, "%v", x)
		assert.InDelta(t, x.mm, f.Best.To-f.Best.From, 2*sure, "%v", x)
	}
}

// A jerk that is switched on and off, summed up three times in small steps, is a
// seven-segment law: the shares are those of the switching times.
func TestSwitchedJerkIsSevenSegment(t *testing.T) {
	const dt, rate = 1e-4, 100.0
	for _, x := range []struct{ jerkUp, even, cruise float64 }{{0.2, 0.4, 2}, {0.35, 0.1, 1}, {0.1, 0, 3}} {
		ramp := 2*x.jerkUp + x.even
		way := 2*ramp + x.cruise
		jerk := func(t float64) float64 {
			sign := 1.0
			if t > way/2 { // the end is the beginning backwards, against the way
				t, sign = way-t, 1
			}
			switch {
			case t < x.jerkUp:
				return sign
			case t > x.jerkUp+x.even && t < ramp:
				return -sign
			}
			return 0
		}
		var p, v, a float64
		take := rampfit.Take{}
		chance := rand.New(rand.NewSource(2))
		var at []float64
		for k := range int(math.Round(way / dt)) {
			at = append(at, p)
			a += dt * jerk((float64(k)+0.5)*dt)
			v += dt * a
			p += dt * v
		}
		for k := 0; float64(k)/rate < way+1; k++ {
			i := min(max(int(math.Round((float64(k)/rate-0.5)/dt)), 0), len(at)-1)
			take.Readings = append(take.Readings, rampfit.Reading{Seconds: float64(k) / rate, Position: 300*at[i]/p + 0.02*chance.NormFloat64()})
		}
		f, err := rampfit.Find(take, 0.02)
		require.NoError(t, err)
		assert.Equal(t, "seven-segment", f.Best.Law, "%v", x)
		assert.True(t, f.Best.Fits)
		assert.InDelta(t, ramp, f.Best.Seconds, 5*f.Best.SecondsSure+dt, "%v", x)
		assert.InDelta(t, x.jerkUp/ramp, f.Best.JerkShare, 5*f.Best.JerkSure+1e-3, "%v", x)
		assert.InDelta(t, way, f.Best.Way, 5*f.Best.WaySure+dt, "%v", x)
	}
}

// Where readings do not tell laws apart, all that they may be are named; where they do, one.
func TestLawsThatAreNotToldApart(t *testing.T) {
	l, err := law.Named("harmonic")
	require.NoError(t, err)
	for sure, several := range map[float64]bool{0.05: false, 8: true} {
		f, err := rampfit.Find(seen(l, 0.5, 4, 0, 300, 24, sure, rand.New(rand.NewSource(4))), sure)
		require.NoError(t, err)
		together := rampfit.Compare([]rampfit.Found{f})
		assert.Equal(t, several, len(together.Others) > 1, "%v: %v", sure, together.Others)
		if !several {
			assert.Equal(t, "harmonic", together.Law)
		}
	}
}

// Takes that each fit a law, and no law fits all of them.
func TestNoLawOfAll(t *testing.T) {
	var all []rampfit.Found
	for _, name := range []string{"harmonic", "4-5-6-7"} {
		l, err := law.Named(name)
		require.NoError(t, err)
		f, err := rampfit.Find(seen(l, 0.5, 4, 0, 300, 48, 0.05, rand.New(rand.NewSource(4))), 0.05)
		require.NoError(t, err)
		require.True(t, f.Best.Fits)
		all = append(all, f)
	}
	together := rampfit.Compare(all)
	assert.Empty(t, together.Law)
	assert.Len(t, together.Fits, 2)
}

// A take that does not tell how sure its ramp is has no weight beside one that does.
func TestATakeThatDoesNotTell(t *testing.T) {
	fit := func(seconds, sure float64) rampfit.Found {
		f := rampfit.Fit{Law: "trapezoidal", Fits: true, Ramp: 0.2, RampSure: sure, Seconds: seconds, SecondsSure: sure}
		return rampfit.Found{Best: f, All: []rampfit.Fit{f}}
	}
	m := rampfit.Compare([]rampfit.Found{fit(0.8, 0.01), fit(3, 0)}).Seconds
	assert.InDelta(t, 0.8, m.Value, 1e-12)
	assert.InDelta(t, 0.01, m.Sure, 1e-12)
	m = rampfit.Compare([]rampfit.Found{fit(0.8, 0), fit(1, 0)}).Seconds
	assert.InDelta(t, 0.9, m.Value, 1e-12)
	assert.Zero(t, m.Sure)
	// Both sides of the edge at which two takes agree: 2.5 of what their difference is unsure by.
	for by, holds := range map[float64]bool{0.99: true, 1.01: false} {
		apart := 2.5 * math.Sqrt2 * 0.01 * by
		assert.Equal(t, holds, rampfit.Compare([]rampfit.Found{fit(0.8, 0.01), fit(0.8+apart, 0.01)}).TimeHolds, "%v", by)
	}
}

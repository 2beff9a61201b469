package rampfit_test

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/law"
	"seamrail/motion/law/rampfit"
)

func cut(t rampfit.Take, from, to float64) rampfit.Take {
	out := rampfit.Take{Grain: t.Grain}
	for _, r := range t.Readings {
		if r.Seconds >= from && r.Seconds <= to {
			out.Readings = append(out.Readings, r)
		}
	}
	return out
}

// A take that begins on the way, or ends on it, tells nothing of the ramp that it lacks.
func TestATakeThatLacksAnEnd(t *testing.T) {
	l, err := law.Trapezoidal(0.2)
	require.NoError(t, err)
	whole := seen(l, 0.7, 5, 0, 300, 24, 0.05, rand.New(rand.NewSource(5)))
	_, err = rampfit.Find(whole, 0.05)
	require.NoError(t, err)
	_, err = rampfit.Find(cut(whole, 1, 99), 0.05)
	require.ErrorContains(t, err, "before the first reading")
	_, err = rampfit.Find(cut(whole, 0, 5.4), 0.05)
	require.ErrorContains(t, err, "after the last reading")
}

// What turns round without a rest is cut there, and fits.
func TestATakeThatTurnsAtOnce(t *testing.T) {
	l, err := law.Trapezoidal(0.25)
	require.NoError(t, err)
	chance := rand.New(rand.NewSource(9))
	take := rampfit.Take{}
	for k := range 300 {
		sec := float64(k) / 24
		p := l.At(math.Max(0, math.Min(1, (sec-1)/4))).S
		if sec > 5 {
			p = 1 - l.At(math.Min(1, (sec-5)/4)).S
		}
		take.Readings = append(take.Readings, rampfit.Reading{Seconds: sec, Position: 100*p + 0.05*chance.NormFloat64()})
	}
	f, err := rampfit.Find(take, 0.05)
	require.NoError(t, err)
	assert.Equal(t, "trapezoidal", f.Best.Law)
	assert.True(t, f.Best.Fits, "%+v", f.Best)
	assert.InDelta(t, 1, f.Best.Seconds, 5*f.Best.SecondsSure)
}

// Both sides of the edge at which a law no longer fits.
func TestTheEdgeOfFitting(t *testing.T) {
	take := seen(law.Uniform(), 0.5, 4, 0, 200, 24, 1, rand.New(rand.NewSource(11)))
	f, err := rampfit.Find(take, 1)
	require.NoError(t, err)
	for _, x := range f.All {
		if x.Law != "uniform" {
			continue
		}
		n := float64(len(f.Take.Readings))
		edge := x.RMS * math.Sqrt(n/(n-4+4*math.Sqrt(2*(n-4))))
		for by, fits := range map[float64]bool{1.001: true, 0.999: false} {
			g, err := rampfit.Find(take, edge*by)
			require.NoError(t, err)
			for _, y := range g.All {
				if y.Law == "uniform" {
					assert.Equal(t, fits, y.Fits, "%v", by)
				}
			}
		}
	}
}

package against

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/plan/sample/many"
)

// Blows a second and more apart are one each, with when it came, how much it moved the picture, and
// how long until it was still, even where the one before still swings; one that swings two ways at
// once is one.
func TestEachBlowIsTold(t *testing.T) {
	for seed := range uint64(many.Times(1, 20)) {
		for name, c := range map[string]struct {
			at, px []float64
			hertz  float64
			other  float64 // Hz of a second swing
		}{
			"far apart":                {[]float64{150, 330}, []float64{2.7, 1.5}, 7, 0},
			"three":                    {[]float64{150, 250, 350}, []float64{2.7, 1.5, 2}, 4, 0},
			"while it still swings":    {[]float64{200, 230}, []float64{3, 2}, 5, 0},
			"one":                      {[]float64{180}, []float64{2.7}, 9, 0},
			"one that swings two ways": {[]float64{180}, []float64{2.7}, 5, 8.5},
		} {
			p, k := fern()
			k.seed = seed
			k.more = func(i int, _ float64) (out [2]float64) {
				for n, at := range c.at {
					since := (float64(i) - at) / 24
					x, y := c.px[n]*fading(since, c.hertz, 0.06), 0.0
					if c.other > 0 {
						y = c.px[n] * fading(since, c.other, 0.06)
					}
					out[0], out[1] = out[0]+0.8*x-0.6*y, out[1]+0.6*x+0.8*y
				}
				return out
			}
			r := laidOut(t, p, k)
			require.Len(t, r.Blows, len(c.at), "%s %s", name, show(r))
			blows := 0
			for n, b := range r.Blows {
				assert.InDelta(t, c.at[n], b.Frame, 1, name)
				size := c.px[n]
				if c.other > 0 {
					size *= math.Sqrt2
				}
				assert.InEpsilon(t, size, b.Px, 0.1, name)
				assert.InEpsilon(t, math.Log(c.px[n]/quiet)/(0.06*2*math.Pi*c.hertz), b.Still, 0.25, name)
			}
			for _, cause := range r.Verdict.Causes {
				blows += int(step(cause.Cause == Blow))
			}
			assert.Equal(t, len(c.at), blows, "%s: %s", name, show(r))
			assert.InDelta(t, c.at[0], r.Verdict.From, 1, "%s: %s", name, r.Verdict.Text)
			if name == "while it still swings" {
				assert.Contains(t, r.Verdict.Text, "2 blows to table or camera, at frames 200 and 230")
			}
		}
	}
}

// A short knock of a third of a pixel is told and not held against a take, as a frame badly laid or a
// hand that goes by comes to as much; one of a pixel is.
func TestASmallKnock(t *testing.T) {
	for px, kind := range map[float64]Kind{0.35: IsPlan, 1: Differs} {
		p, k := fern()
		k.noise = 0.02
		k.more = func(i int, _ float64) [2]float64 { return [2]float64{0, px * fading((float64(i)-180)/24, 7, 0.1)} }
		r := laidOut(t, p, k)
		assert.Equal(t, kind, r.Verdict.Kind, "%g %s", px, show(r))
		assert.Equal(t, kind == Differs, len(r.Verdict.Causes) > 0)
		assert.Len(t, r.Blows, 1)
	}
}

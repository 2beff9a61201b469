package against

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/plan/sample/many"
)

// What no cause was made for is not the plan either, if it moves the picture by a pixel.
func TestWhatNobodyThoughtOf(t *testing.T) {
	walk := func(seed uint64) func(int, float64) [2]float64 {
		rng, at, was := rand.New(rand.NewPCG(seed, 9)), 0.0, -1
		return func(i int, _ float64) [2]float64 {
			if i > was {
				at, was = at+0.1*rng.NormFloat64(), i
			}
			return [2]float64{at, 0}
		}
	}
	for name, more := range map[string]func(seed uint64) func(i int, j float64) [2]float64{
		"a hum": func(seed uint64) func(int, float64) [2]float64 {
			f := 1 + float64(seed%11)
			return func(i int, _ float64) [2]float64 { return [2]float64{math.Sin(2 * math.Pi * f * float64(i) / 24), 0} }
		},
		"a push of a fifth of a second": func(seed uint64) func(int, float64) [2]float64 {
			return func(i int, _ float64) [2]float64 {
				return [2]float64{0, max(0, 1.5-math.Abs(float64(i)-120-float64(17*seed%300))/2)}
			}
		},
		"a walk": walk,
		"a shift": func(seed uint64) func(int, float64) [2]float64 {
			return func(i int, _ float64) [2]float64 {
				return [2]float64{0.8 * step(i > 60+int(31*seed%350)), 0.6 * step(i > 60+int(31*seed%350))}
			}
		},
		"steps lost in the middle of a move": func(seed uint64) func(int, float64) [2]float64 {
			return func(_ int, j float64) [2]float64 {
				on := step(j > float64(30+144*(seed%3)))
				return [2]float64{-on, -on / 20}
			}
		},
		"a bend of the rail": func(uint64) func(int, float64) [2]float64 {
			at, _ := round(0, leg{60, 100, mustLaw("3-4-5")}, leg{12, 100, nil}, leg{60, 0, mustLaw("3-4-5")}, leg{12, 0, nil})
			return func(_ int, j float64) [2]float64 {
				return [2]float64{0, 2 * math.Sin(at(min(max(j, 0), 432))/100*math.Pi)}
			}
		},
	} {
		for seed := range uint64(many.Times(1, 20)) {
			p, k := fern()
			k.more, k.seed, k.noise = more(seed), seed, 0.05+0.02*float64(seed%6)
			r := laidOut(t, p, k)
			assert.NotEqual(t, IsPlan, r.Verdict.Kind, "%s %d: %s", name, seed, show(r))
			if cause, ok := map[string]Cause{"a hum": Hum, "a shift": Blow, "steps lost in the middle of a move": LostSteps}[name]; ok {
				assert.Equal(t, cause, r.Verdict.Causes[0].Cause, "%s %d: %s", name, seed, r.Verdict.Text)
			}
		}
	}
}

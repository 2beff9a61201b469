package against

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func laidOut(t *testing.T, p Plan, k taking) Result {
	t.Helper()
	r, err := Lay(k.film(p), p)
	require.NoError(t, err)
	return r
}

func show(r Result) string {
	s := fmt.Sprintf("f0 %.4f±%.4f %v others %v rate %.2g±%.2g noise %.3f alone %d\n%s\nbound %.3f apart %.3f from %.0f why %v unproven %v\n", r.Frame0.Value, r.Frame0.Sure, r.Frame0.Known, r.Frame0.Others, r.Rate.Value, r.Rate.Sure, r.Noise, r.Alone, r.Verdict.Text, r.Verdict.Bound, r.Verdict.Apart, r.Verdict.From, r.Verdict.Why, r.Verdict.Unproven)
	for _, c := range r.Verdict.Causes {
		s += fmt.Sprintf("  cause %v frame %.1f lowers %.0f px %.2f\n", c.Cause, c.Frame, c.Lowers, c.Px)
	}
	s += fmt.Sprintf("rounds %+v\naxes %+v\nshake %+v blows %+v drift %v plain %v left %v cmp %v", r.Rounds, r.Axes, r.Shake, r.Blows, r.Drift, r.Plain, r.Left, r.Compared)
	return s
}

func TestTry(t *testing.T) {
	p, k := fern()
	ring := func(since, f, d, a float64) float64 {
		if since < 0 {
			return 0
		}
		w := 2 * math.Pi * f
		return a * math.Exp(-d*w*since) * math.Cos(w*math.Sqrt(1-d*d)*since)
	}
	for name, change := range map[string]func(*taking){
		"clean": func(k *taking) {},
		"bad":   func(k *taking) { k.noise, k.outlier, k.hidden = 0.5, 0.2, [2]int{200, 224} },
		"slow round": func(k *taking) {
			k.time = func(j float64) float64 { return j - 0.72*min(max(j/144-1, 0), 1) }
		},
		"slow": func(k *taking) { k.time = func(j float64) float64 { return j / 1.005 } },
		"lost": func(k *taking) { k.axis = func(_ int, j, x float64) float64 { return x - step(j >= 144+72)*0.125 } },
		"backlash": func(k *taking) {
			k.axis = func(_ int, j, x float64) float64 {
				return x - 0.025*step(math.Mod(j+144, 144) < 72) + 0.025*step(math.Mod(j+144, 144) >= 72)
			}
		},
		"blow": func(k *taking) {
			k.more = func(i int, j float64) [2]float64 { return [2]float64{0, ring((float64(i)-250)/24, 5, 0.06, 1)} }
		},
		"shake": func(k *taking) {
			k.more = func(i int, j float64) [2]float64 {
				u := math.Mod(j+144, 144)
				u, sign := math.Mod(j+144, 144), 1.0
				if j < 60 {
					return [2]float64{}
				}
				since := u - 60
				if u < 60 || u >= 132 {
					sign, since = -1, math.Mod(u+12, 144)
				}
				if j > 432 {
					sign, since = -1, j-420
				}
				return [2]float64{sign * ring(since/24, 6.3, 0.05, 1), 0}
			}
		},
		"drift": func(k *taking) {
			k.more = func(i int, j float64) [2]float64 { return [2]float64{float64(i) / 490 * 2, 0} }
		},
		"other law": func(k *taking) {
			at, _ := round(0, leg{60, 100, mustLaw("harmonic")}, leg{12, 100, nil}, leg{60, 0, mustLaw("harmonic")}, leg{12, 0, nil})
			k.motion = []func(float64) float64{at}
		},
		"reverse": func(k *taking) { k.gains = [][4]float64{{-8, -0.4, 0, 0}} },
	} {
		kk := k
		change(&kk)
		t.Run(name, func(t *testing.T) {
			r := laidOut(t, p, kk)
			t.Log(show(r))
			assert.NotEmpty(t, r.Verdict.Text)
		})
	}
}

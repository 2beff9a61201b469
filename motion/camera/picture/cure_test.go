package picture_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/camera/picture"
)

// ailing draws a shot with much that may be wrong with it.
func ailing(t *rapid.T, outer testing.TB) (picture.Motion, scene.Scene) {
	num := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	s := bench()
	s.Stand.Distance = scene.Is(num("distance", 420, 700))
	s.Lens.Magnification, s.Lens.FocalLength = scene.Number{}, scene.Is(num("f", 50, 110))
	s.Lens.Focus = scene.Is(num("focus", 380, 600))
	s.Lens.PupilRatio = scene.Is(num("p", 0.6, 1.5))
	s.Lens.Aperture = scene.Is(rapid.SampledFrom([]float64{4, 8, 11, 16, 22, 32}).Draw(t, "stop"))
	s.Camera.ISO = scene.Is(rapid.SampledFrom([]float64{100, 400, 1600}).Draw(t, "iso"))
	s.Camera.Shutter = scene.Is(num("shutter", 1.0/2000, 1.0/121))
	s.Camera.Pitch = scene.Is(num("pitch", 0.004, 0.02))
	back := key()
	back.Bearing, back.Rise, back.Name = num("bearing", -180, 180), num("rise", -60, 60), "rim"
	back.Ripple, back.Kelvin = scene.Is(num("ripple", 0, 1)), scene.Is(num("kelvin", 3000, 7000))
	front := key()
	front.Ripple, front.Kelvin, front.Level = scene.Is(0), scene.Is(5600), scene.Is(num("level", 0.01, 1))
	s.Lamps, s.Mains = []scene.Lamp{front, back}, exact.Int(50)
	s.Backlash = map[string]float64{"across": num("play", 0, 0.1)}
	s.Holes = hole(num("hole", 50, 90))
	m := at(outer, 120, 30).with("across", swing(0, num("across", -15, 15), 0.25)).with("push", swing(0, num("push", -30, 200), 0.25))
	return m, s
}

// Every cure that is told was tried in some frames. Looked at in every frame, by a
// whole new look, its check passes, and nothing else is worse than was said.
func TestCuresCure(t *testing.T) {
	seen := map[string]int{}
	rapid.Check(t, func(rt *rapid.T) {
		m, s := ailing(rt, t)
		before, err := picture.Look(m, s)
		if err != nil {
			return
		}
		offers, err := picture.OffersOf(m, s)
		require.NoError(rt, err)
		for _, o := range offers {
			seen[o.Check]++
			after, err := picture.Look(o.Motion, o.Scene)
			require.NoError(rt, err, o.Words)
			v := after.Verdicts[o.Index]
			assert.Equal(rt, o.Check, v.Check)
			assert.True(rt, v.Passes(), "%s: %s: %s", o.Check, o.Words, v.Text)
			for k, w := range after.Verdicts {
				if was := before.Verdicts[k]; w.Level.Rank() > was.Level.Rank() {
					told := strings.Contains(o.Costs, w.Check) || w.Check == "light" && strings.Contains(o.Costs, "stops of light")
					assert.True(rt, told, "%s: %s%s makes %s worse: %s", o.Check, o.Words, o.Costs, w.Check, w.Text)
				}
			}
		}
	})
	for _, check := range []string{"focus", "light", "flicker", "backlash of across"} {
		assert.Positive(t, seen[check], check)
	}
}

// ISO 100 is no cure at ISO 100; a neutral filter is, by its mark.
func TestTooMuchLightAtTheLowestSensitivity(t *testing.T) {
	s := bench()
	s.Lamps, s.Camera.ISO = []scene.Lamp{key()}, scene.Is(100)
	need := figure(t, find(t, examine(t, at(t, 120, 2), s), "light"), "light needed")
	s.Lamps, s.Metered = nil, scene.Is(8*need)
	v := find(t, examine(t, at(t, 120, 2), s), "light")
	assert.Equal(t, picture.Poor, v.Level)
	for _, c := range v.Cures.Words() {
		assert.NotContains(t, c, "ISO 100")
	}
	assert.Contains(t, v.Cures.Words(), "a neutral filter of ND 0.9, 3 stops")
	s.Lens.Density = scene.Is(0.9) // 10^0.9 = 7.943
	v = find(t, examine(t, at(t, 120, 2), s), "light")
	assert.Equal(t, picture.Good, v.Level)
	assert.InDelta(t, math.Log2(math.Pow(10, 0.9)/8), figure(t, v, "stops missing"), 1e-9)
	s.Metered = scene.Is(need)
	assert.Contains(t, find(t, examine(t, at(t, 120, 2), s), "light").Cures.Words(), "no neutral filter")
	s.Lens.Density, s.Metered = scene.Number{}, scene.Is(need*math.Exp2(3.5))
	assert.Contains(t, find(t, examine(t, at(t, 120, 2), s), "light").Cures.Words(), "a neutral filter of ND 1.2, 4 stops with ISO 160", "half a stop cannot be taken off ISO 100")
}

// An aperture goes with the focus that belongs to it; both are tried, and the light
// they cost is made up for.
func TestApertureAndFocusTogether(t *testing.T) {
	s := bench()
	s.Camera.Confusion, s.Camera.Pitch, s.Lens.Aperture = scene.Is(0.03), scene.Is(0.01), scene.Is(5.6)
	s.Camera.ISO = scene.Is(100)
	s.Metered = scene.Is(figure(t, find(t, examine(t, at(t, 120, 2), s), "light"), "light needed"))
	v := find(t, examine(t, at(t, 120, 240).with("push", swing(0, 12, 2)), s), "focus")
	assert.Equal(t, picture.Poor, v.Level)
	require.NotEmpty(t, v.Cures.Words())
	// Spots at both ends are alike at the harmonic mean of 388 and 400, 393.9.
	assert.Equal(t, "f/18 with focus set at 394 mm and ISO 1250, but then diffraction will only just do", v.Cures.Words()[0])
}

// Less travel and finer steps are motions that were looked at, with their figures.
func TestOtherMovesAsCures(t *testing.T) {
	m := at(t, 120, 240).with("across", swing(20, 60, 2))
	v := find(t, examine(t, m, bench()), "screen speed")
	assert.Equal(t, picture.Fair, v.Level)
	share := 1.0 / 7 / figure(t, v, "speed")
	assert.Contains(t, v.Cures.Words(), fmt.Sprintf("less travel of across, from 20 mm to %.1f mm", 20+40*share))
	less := at(t, 120, 240).with("across", swing(20, 20+40*share, 2))
	assert.InDelta(t, 1.0/7, figure(t, find(t, examine(t, less, bench()), "screen speed"), "speed"), 1e-4)
	slow := at(t, 120, 20).with("across", steady(0, 1))
	assert.Contains(t, find(t, examine(t, slow, bench()), "steps of across").Cures.Words(), "microsteps 2 times as fine, or as much more gearing")
	slow.axes[0].StepsPerUnit = exact.Int(160)
	assert.Equal(t, picture.Good, find(t, examine(t, slow, bench()), "steps of across").Level)
}

// A cure that loses as much as it gains is not told as one, and why not is; what it
// costs is told with one that gains more.
func TestCuresThatCostAsMuchAreNone(t *testing.T) {
	s := bench()
	m := at(t, 120, 240).with("across", swing(0, 40, 2))
	v := find(t, examine(t, m, s), "smear")
	assert.Equal(t, []string{"a shutter of 1/640 s, but then shutter angle will only just do"}, v.Cures.Words())
	assert.Equal(t, []string{"a loop about 2.1 times as long, planned anew"}, v.Advice, "this motion cannot be planned anew")
	s.Camera.ISO = scene.Number{}
	v = find(t, examine(t, m, s), "smear")
	assert.NotEmpty(t, v.Cures.Words(), "nobody said how much light there is")
	s.Camera.ISO, s.Metered = scene.Is(1600), scene.Is(1)
	s.Metered.Value = figure(t, find(t, examine(t, m, s), "light"), "light needed")
	v = find(t, examine(t, m, s), "smear")
	assert.Equal(t, []string{"a shutter of 1/640 s with ISO 5000, but then shutter angle will only just do"}, v.Cures.Words())
}

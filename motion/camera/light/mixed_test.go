package light_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"seamrail/motion/camera/light"
)

// mcCamy is the colour temperature of a chromaticity in x, y by another road than ours
// (C. S. McCamy, Color Research and Application 17:142-144, 1992,
// DOI 10.1002/col.5080170211), good to some kelvin near the full radiators.
func mcCamy(x, y float64) float64 {
	n := (x - 0.3320) / (0.1858 - y)
	return 449*n*n*n + 3525*n*n + 6823.3*n + 5520.33
}

// Illuminant A is a full radiator of 2856 K at x 0.44757, y 0.40745 (CIE 15:2018,
// DOI 10.25039/TR.015.2018). Mixed with a radiator of 6500 K at x 0.31352, y 0.32363 (the
// locus at that temperature, as colour tables give it), by the light of each, x and y
// follow from the definition of chromaticity, and the temperature from McCamy's formula.
func TestMixedLight(t *testing.T) {
	for _, share := range []float64{0.1, 0.3, 0.5, 0.7, 0.9} {
		a, b := share/0.40745, (1-share)/0.32363
		x, y := (a*0.44757+b*0.31352)/(a+b), 1/(a+b)
		got := light.Mixed([]light.Part{{Lux: share, Kelvin: 2856}, {Lux: 1 - share, Kelvin: 6500}})
		assert.InDelta(t, light.Mired(mcCamy(x, y)), light.Mired(got), 2, "of A %g", share)
	}
}

// One temperature stays what it is, light that is none counts for nothing, and a mixture
// lies between its parts, nearer to what there is more of.
func TestMixedLightLiesBetween(t *testing.T) {
	assert.Equal(t, 3200.0, light.Mixed([]light.Part{{Lux: 5, Kelvin: 3200}, {Lux: 0, Kelvin: 9000}, {Lux: 1, Kelvin: 3200}}))
	rapid.Check(t, func(t *rapid.T) {
		warm := rapid.Float64Range(1500, 6000).Draw(t, "warm")
		cold := warm * rapid.Float64Range(1.1, 2).Draw(t, "colder")
		of := rapid.Float64Range(0.05, 0.9).Draw(t, "of the cold")
		one := light.Mixed([]light.Part{{Lux: 1 - of, Kelvin: warm}, {Lux: of, Kelvin: cold}})
		more := light.Mixed([]light.Part{{Lux: 1 - of - 0.04, Kelvin: warm}, {Lux: of + 0.04, Kelvin: cold}})
		assert.True(t, warm < one && one < more && more < cold)
	})
}

// At a tenth of its light a filament of 3200 K burns at about half the voltage and at
// three quarters of its temperature: (V/V0)^3.4 of lumens and (V/V0)^0.42 of kelvin (IES
// Lighting Handbook, from memory, as the handbook is sold).
func TestDimmedFilament(t *testing.T) {
	assert.InDelta(t, 3200*0.7525, light.Dimmed(3200, 0.1), 1)
	assert.InDelta(t, 0.508, math.Pow(light.Dimmed(3200, 0.1)/3200, 1/0.42), 0.001, "volts")
	assert.Equal(t, 3200.0, light.Dimmed(3200, 1))
	assert.Zero(t, light.Dimmed(3200, 0))
}

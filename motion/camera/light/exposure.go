// Package light is exposure and lamps in numbers: the light a picture needs,
// the light that lamps give, the marked series, flicker and colour.
//
// Illuminance is in lux, luminous flux in lumens, intensity in candela,
// lengths in mm, times in seconds, angles in degrees.
package light

import "math"

// Incident is the calibration constant C of a meter with a flat receptor, in
// lx s. ISO 2720:1974, as others quote it, allows 240 to 400 for flat ones;
// 250 is what meters commonly use.
const Incident = 250.0

// Needed returns the illuminance, in lx, that exposes a surface fully:
// C N²/(t S), for the effective f-number n, shutter t in s and sensitivity iso.
// All above 0.
// Source: the incident-light equation of ISO 2720:1974, N²/t = E S/C.
func Needed(c, n, t, iso float64) float64 { return c * n * n / (t * iso) }

// Sensitivity is Needed solved for the sensitivity that lux calls for.
func Sensitivity(c, n, t, lux float64) float64 { return c * n * n / (t * lux) }

// Value returns the exposure value at ISO 100 of an illuminance in lx:
// log2(100 E/C).
func Value(c, lux float64) float64 { return math.Log2(100 * lux / c) }

// SolidAngle returns the steradians of a cone with the full angle beam, 0 to
// 360 degrees: 2 pi (1 - cos(beam/2)), in the form that keeps its digits for
// narrow beams.
func SolidAngle(beam float64) float64 {
	s := math.Sin(beam * math.Pi / 720)
	return 4 * math.Pi * s * s
}

// Intensity returns the candela of lumens spread evenly over a beam of the
// given full angle above 0.
func Intensity(lumens, beam float64) float64 { return lumens / SolidAngle(beam) }

// Illuminance returns the lux that candela give on a surface distance mm away,
// whose normal stands incidence degrees off the direction to the lamp: the
// inverse square and the cosine law (CIE S 017). From 90 degrees on it is 0.
func Illuminance(candela, distance, incidence float64) float64 {
	if incidence >= 90 || incidence <= -90 {
		return 0
	}
	m := distance / 1000
	return candela * math.Cos(incidence*math.Pi/180) / (m * m)
}

// Mired returns the reciprocal colour temperature 1e6/T of T kelvin (CIE S
// 017:2020, International Lighting Vocabulary, DOI 10.25039/S017.2020).
func Mired(kelvin float64) float64 { return 1e6 / kelvin }

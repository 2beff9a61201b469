package light

import (
	"math"
	"slices"
	"strconv"
)

// Apertures are the f-numbers marked on lenses in thirds of a stop (ISO
// 517:2008; the figures from memory, as the standard is sold: a test holds
// them to the exact values). The exact value of each is a power of the sixth
// root of 2.
func Apertures() []float64 {
	return []float64{1, 1.1, 1.2, 1.4, 1.6, 1.8, 2, 2.2, 2.5, 2.8, 3.2, 3.5, 4, 4.5, 5, 5.6, 6.3, 7.1,
		8, 9, 10, 11, 13, 14, 16, 18, 20, 22, 25, 29, 32, 36, 40, 45}
}

// Shutters are the marked times under a second in thirds of a stop, as the
// number under the stroke: 250 is 1/250 s (ISO 516:2019; the figures from
// memory, as the standard is sold: a test holds them to thirds of a stop).
func Shutters() []float64 {
	return []float64{2, 2.5, 3, 4, 5, 6, 8, 10, 13, 15, 20, 25, 30, 40, 50, 60, 80, 100, 125, 160, 200, 250,
		320, 400, 500, 640, 800, 1000, 1250, 1600, 2000, 2500, 3200, 4000, 5000, 6400, 8000}
}

// ExactAperture returns the f-number that a marked one stands for: 2^(k/6)
// with the whole k nearest to it. A number that is not marked on lenses stands
// for itself.
func ExactAperture(marked float64) float64 {
	if !slices.Contains(Apertures(), marked) {
		return marked
	}
	return math.Exp2(math.Round(6*math.Log2(marked)) / 6)
}

// WiderAperture returns the largest marked f-number that is no larger than n,
// and the smallest there is where n is beyond it.
func WiderAperture(n float64) float64 {
	out := Apertures()[0]
	for _, a := range Apertures() {
		if a <= n {
			out = a
		}
	}
	return out
}

// NarrowerAperture returns the smallest marked f-number that is no smaller than
// n, and false where lenses have none.
func NarrowerAperture(n float64) (float64, bool) {
	for _, a := range Apertures() {
		if a >= n {
			return a, true
		}
	}
	return 0, false
}

// NoLonger returns the longest marked time that is no longer than sec, in
// seconds, or sec itself where it is outside the series.
func NoLonger(sec float64) float64 {
	all := Shutters()
	if sec > 1/all[0] || sec < 1/all[len(all)-1] {
		return sec
	}
	for _, n := range all {
		if 1/n <= sec*(1+markSlack) {
			return 1 / n
		}
	}
	return sec
}

// markSlack lets a time that is a marked one but for rounding count as it.
const markSlack = 1e-9

// ShutterText prints a time as a camera shows it: "1/250 s", "1/47.95 s",
// "2 s".
func ShutterText(sec float64) string {
	if sec >= 0.5 {
		return strconv.FormatFloat(sec, 'g', 4, 64) + " s"
	}
	return "1/" + strconv.FormatFloat(1/sec, 'g', 4, 64) + " s"
}

// sensitivities rise in thirds of a stop from 100 (ISO 12232:2019, speed
// values; from memory, as the standard is sold).
func sensitivities() []float64 {
	base := []float64{100, 125, 160, 200, 250, 320, 400, 500, 640, 800}
	var out []float64
	for scale := 1.0; scale <= 1000; scale *= 10 {
		out = append(out, base[0]*scale, base[1]*scale, base[2]*scale, base[3]*scale, base[4]*scale,
			base[5]*scale, base[6]*scale, base[7]*scale, base[8]*scale, base[9]*scale)
	}
	return out
}

// AtLeastISO returns the lowest speed value of the series that is at least iso.
func AtLeastISO(iso float64) float64 {
	for _, s := range sensitivities() {
		if s >= iso*(1-markSlack) {
			return s
		}
	}
	return iso
}

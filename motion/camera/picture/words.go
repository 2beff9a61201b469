package picture

import (
	"math"
	"strconv"

	"seamrail/motion/camera/light"
)

// seconds prints a time as a camera does.
func seconds(s float64) string { return light.ShutterText(s) }

// noise is what rounding alone makes of a number that is 0, whatever its unit: a
// millionth of a nanometre, of a pixel or of a lux means nothing to anyone.
const noise = 1e-9

// pixelNoise is the same of places in the picture: they are differences of numbers of
// thousands of px, times as much as is in a captured frame of what is looked at.
const pixelNoise = 1e-6

// calmed drops what rounding alone makes of a number in a unit.
func calmed(v float64, unit string) float64 {
	least := noise
	if unit == "px" || unit == "px/frame" {
		least = pixelNoise
	}
	if math.Abs(v) < least {
		return 0
	}
	return v
}

// round prints a number to so many significant digits, without an exponent.
func round(v float64, digits int) string {
	s := strconv.FormatFloat(calmed(v, ""), 'g', digits, 64)
	f, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return s
	}
	return strconv.FormatFloat(f, 'f', -1, 64)
}

// mm prints a length to three digits: nobody sets a stand finer.
func mm(v float64) string { return round(v, 3) + " mm" }

// short prints a number to two digits, or three from 100 on.
func short(v float64) string {
	if v >= 100 || v <= -100 {
		return round(v, 3)
	}
	return round(v, 2)
}

// stopsOf prints an amount of light: "1 stop", "2.5 stops".
func stopsOf(v float64) string {
	if text := short(v); text == "1" {
		return text + " stop"
	}
	return short(v) + " stops"
}

// atMost prints a bound to three digits, rounded down.
func atMost(v float64) string {
	grain := math.Pow(10, math.Floor(math.Log10(v))-2)
	return round(math.Floor(v/grain)*grain, 4)
}

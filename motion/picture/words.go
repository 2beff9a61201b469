package picture

import (
	"strconv"

	"seamrail/motion/light"
)

// seconds prints a time as a camera does.
func seconds(s float64) string { return light.ShutterText(s) }

// round prints a number to so many significant digits, without an exponent.
func round(v float64, digits int) string {
	s := strconv.FormatFloat(v, 'g', digits, 64)
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

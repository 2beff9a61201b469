package shakereport

import (
	"fmt"
	"math"
	"strconv"

	"seamrail/export/report"
	"seamrail/motion/base/clock"
	"seamrail/motion/vibration"
	"seamrail/motion/vibration/ringdown"
	"seamrail/motion/vibration/spring"
	"seamrail/motion/vibration/survey"
)

// Scale turns distances of an axis into words.
type Scale struct {
	Unit    string  // "mm" or "deg"
	PerUnit float64 // pixels of the picture to a unit; 0 where that is not known
}

// nothing is what counts as no movement, in units: a tenth of a thousandth of a
// millimetre is a fiftieth of a pixel of any lens.
const nothing = 1e-4

// Of says a distance in units, and in pixels where the scale is known.
func (s Scale) Of(units float64) string { return s.to(units, 3) }

// brief is Of with two digits, for a table.
func (s Scale) brief(units float64) string { return s.to(units, 2) }

func (s Scale) to(units float64, count int) string {
	units = math.Abs(units)
	if units < nothing {
		return "nothing"
	}
	text := significant(units, count) + " " + s.Unit
	if s.PerUnit > 0 {
		text += " (" + pixels(units*s.PerUnit) + " px)"
	}
	return text
}

// pixels prints tenths of a pixel, where there are few.
func pixels(v float64) string {
	if v < 10 {
		return strconv.FormatFloat(v, 'f', 1, 64)
	}
	return strconv.FormatFloat(v, 'f', 0, 64)
}

// digits prints three significant digits.
func digits(v float64) string { return significant(v, 3) }

// significant prints so many significant digits and no exponent; v is above 0.
func significant(v float64, count int) string {
	places := count - 1 - int(math.Floor(math.Log10(v)))
	grain := math.Pow(10, float64(places))
	return strconv.FormatFloat(math.Round(v*grain)/grain, 'f', -1, 64)
}

// half is the pixel below which a swing is not seen.
const half = 0.5

// Swings says how an axis swings, and how well that is known.
func Swings(m ringdown.Measured, c clock.Clock) string {
	known := func(sure float64, unit string) string {
		if sure <= 0 {
			return ""
		}
		return " ± " + digits(sure) + unit
	}
	s := m.Spring
	return fmt.Sprintf("%s Hz%s, damping %s %%%s; one swing lasts %s s, %s captured frames",
		digits(s.Frequency), known(m.FrequencySure, ""), digits(100*s.Damping), known(100*m.DampingSure, ""),
		digits(s.Period()), digits(s.Period()*c.Capture.Float()))
}

// mostly is the share of the whole that counts as nearly all.
const mostly = 0.9

// Moving says how far the load leaves the carriage.
func Moving(f survey.Found, s Scale, c clock.Clock) string {
	if math.Abs(f.Worst.Value) < nothing {
		return "nothing that shows"
	}
	text := fmt.Sprintf("up to %s beside the carriage, %s", s.Of(f.Worst.Value), report.When(c, f.Worst.Time))
	if math.Abs(f.Ring.Value) >= mostly*math.Abs(f.Worst.Value) {
		return text + ", and nearly all of it is shaking"
	}
	return text + fmt.Sprintf("; by up to %s of that it shakes, the rest is the lag of its acceleration", s.Of(f.Ring.Value))
}

// Rested says what swings in a dwell, how it fades and what is left.
func Rested(r vibration.Rest, s Scale, spring spring.Spring, c clock.Clock) string {
	text := fmt.Sprintf("%s, for %s captured frames: swings by %s", report.When(c, r.From), digits((r.To-r.From)*c.Capture.Float()), s.Of(r.Swing))
	if r.Swing < nothing {
		return text
	}
	text += ", and still by " + s.Of(r.Left) + " as it moves on"
	if s.PerUnit > 0 && r.Swing*s.PerUnit > half {
		fade := spring.Fades(r.Swing*s.PerUnit, half)
		text += fmt.Sprintf("; below half a pixel after %.0f captured frames", math.Ceil(fade*c.Capture.Float()))
	}
	return text
}

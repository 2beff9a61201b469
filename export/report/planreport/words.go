package planreport

import (
	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
)

// secondDigits is how many decimals times are printed with: a millisecond, a
// fraction of any frame.
const secondDigits = 3

// seconds prints an exact time.
func seconds(s exact.Rat) string { return decimal(s) + " s" }

func decimal(r exact.Rat) string { return r.Decimal(secondDigits) }

// pace says in words how the picture's speed stands to life's.
func pace(retime exact.Rat) string {
	switch retime.Cmp(exact.Int(1)) {
	case 0:
		return "as fast as life"
	case -1:
		return decimal(retime.Inv()) + " times slower than life"
	}
	return decimal(retime) + " times faster than life"
}

// dimensions are those of a position and its derivatives, in an axis' unit.
func dimensions(name string) [4]unit.Dimension {
	if name == "deg" {
		return [4]unit.Dimension{unit.Angle, unit.AngularSpeed, unit.AngularAcceleration, unit.AngularJerk}
	}
	return [4]unit.Dimension{unit.Length, unit.Speed, unit.Acceleration, unit.Jerk}
}

// Package reach answers what a rig can do: the shortest loop at a travel, the
// longest travel in a loop, the laws that fit. Every answer is built as a plan
// and verified before it is given.
package reach

import (
	"math"

	"seamrail/motion/law"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
)

// Limits are what an axis may do, in its unit and real seconds. Jerk is 0
// where none is stated.
type Limits struct{ Speed, Acc, Jerk float64 }

// LimitsOf returns the limits of an axis behind a controller: the speed is
// also held to the controller's step rate.
func LimitsOf(a rig.Axis, c rig.Controller) Limits {
	return Limits{Speed: a.SpeedCap(c.StepRate), Acc: a.MaxAcc, Jerk: a.MaxJerk}
}

// Leg returns the shortest time, in seconds, in which law l covers a distance
// from rest to rest within the limits, and the quantity that decides it. With
// peak factors Cv, Ca, Cj of the law, v = Cv D/T, a = Ca D/T², j = Cj D/T³
// (Norton, Design of Machinery, cam chapter), so the time is algebra. It is
// +Inf where the law jumps in something that is limited.
func Leg(l law.Law, distance float64, lim Limits) (seconds float64, binding string) {
	d, p, start := math.Abs(distance), l.Peaks(), l.At(0)
	if d == 0 {
		return 0, ""
	}
	if start.V != 0 {
		return math.Inf(1), plan.Acceleration
	}
	jerk := p.J
	if start.A != 0 {
		jerk = math.Inf(1)
	}
	seconds, binding = p.V*d/lim.Speed, plan.Speed
	if t := math.Sqrt(p.A * d / lim.Acc); t > seconds {
		seconds, binding = t, plan.Acceleration
	}
	if lim.Jerk > 0 {
		if t := math.Cbrt(jerk * d / lim.Jerk); t > seconds {
			seconds, binding = t, plan.Jerk
		}
	}
	return seconds, binding
}

// Travel returns the longest distance law l covers in so many seconds from
// rest to rest within the limits: Leg the other way round. It is 0 where the
// law jumps in something that is limited.
func Travel(l law.Law, seconds float64, lim Limits) float64 {
	p, start := l.Peaks(), l.At(0)
	if start.V != 0 || lim.Jerk > 0 && (start.A != 0 || math.IsInf(p.J, 1)) {
		return 0
	}
	d := math.Min(lim.Speed*seconds/p.V, lim.Acc*seconds*seconds/p.A)
	if lim.Jerk > 0 {
		d = math.Min(d, lim.Jerk*seconds*seconds*seconds/p.J)
	}
	return d
}

package drive

import (
	"math"

	"seamrail/motion/spec/rig"
)

// JogRest is how an axis comes to rest that is let go of at its speed: after how many s, and
// how many mm or degrees on, at the most. It is what the parts of a jog add up to, on a
// controller whose acceleration is that of the rig file and which cuts ahead no further than
// is usual: a rig of metal may do otherwise, and is to be tried slowly.
type JogRest struct{ Seconds, Way float64 }

// JogRests are those of the JogSpeeds of an axis.
func JogRests(c rig.Controller, a rig.Axis) []JogRest {
	var out []JogRest
	for _, v := range JogSpeeds(a) {
		out = append(out, jogRest(c, a, v))
	}
	return out
}

func jogRest(c rig.Controller, a rig.Axis, v float64) JogRest {
	acc, told := acceleration(a), lookSoon.Seconds()
	switch {
	case acc <= 0:
		return JogRest{told, v * told}
	case c.Kind.PlaysSteps():
		v = min(v, rowTop(a, rowTick))
	case c.Jogs():
		told += cutAhead.Seconds()
	default: // as far as the whole of one short move
		peak := shortSpeed(min(v, shortTop(a)), acc, shortGap)
		return JogRest{told + shortPeak + peak/acc, math.Max(peak*shortPeak, leastSteps/a.StepsPerUnit.Float())}
	}
	return JogRest{told + v/acc, v*told + v*v/(2*acc)}
}

package drive

import (
	"fmt"
	"math"

	"seamrail/motion/spec/rig"
)

// printGrain is half of the last of the three decimals that controllers print.
const printGrain = 0.0005

const perSecond = 1000 // ms

// judgeIdle holds the idle delay against the one that the plan was made for. A
// controller waits that long at each end of motion and each dwell (measured on
// open firmware), and then takes the current off.
func (t *talker) judgeIdle(name string, got float64) finding {
	const falls = "then takes the current off its motors: a carriage on an incline falls, and one that is touched loses its place"
	planned := t.controller.IdleDelay * perSecond
	assumed := "its motors keep their current"
	if planned > 0 {
		assumed = fmt.Sprintf("it waits %g ms", planned)
	}
	cure := fmt.Sprintf("Set %s=%d", name, rig.StaysOn)
	switch {
	case got >= rig.StaysOn && planned == 0:
		return finding{}
	case got == 0 && t.controller.IdleAtOnce:
		return finding{tell: fmt.Sprintf("it does not wait at an end of motion or a dwell (%s=0), as the rig file says, and %s", name, falls)}
	case got >= rig.StaysOn:
		return finding{refuse: fmt.Sprintf("idle delay: %s is %g, so that its motors keep their current and it does not wait at a rest, and the plan was made as if %s: "+
			"it would be %g ms early after each end of motion and each dwell. Say idle-delay = \"none\" in the rig file and plan again", name, got, assumed, planned)}
	case planned > 0 && math.Abs(got-planned) <= printGrain:
		return finding{tell: fmt.Sprintf("it waits %g ms at each end of motion and each dwell (%s), as the plan knows, and %s", got, name, falls)}
	default:
		cure += fmt.Sprintf(", or say idle-delay = \"%g ms\" in the rig file and plan again", got)
	}
	return finding{refuse: fmt.Sprintf("idle delay: %s is %g ms, and the plan was made as if %s: at each end of motion and each dwell it would be %g ms out of step with the frames, and it %s. %s",
		name, got, assumed, math.Abs(got-planned), falls, cure)}
}

// judgeJunction holds the junction deviation against the one that the pace of
// the lines was worked out for.
func (t *talker) judgeJunction(name string, got float64) finding {
	want := t.controller.JunctionDeviation
	if near(got, []float64{want}) || math.Abs(got-want) <= printGrain {
		return finding{}
	}
	return finding{refuse: fmt.Sprintf("junction deviation: %s is %g mm and the rig file says %g mm: it would pass from line to line at another pace than the lines were worked out for, "+
		"and be out of step with the frames. Set %s=%g, or say junction-deviation = \"%g mm\" in the rig file and plan again", name, got, want, name, want, got)}
}

// inch is an inch in mm, exactly.
const inch = 25.4

// judgeInches makes reports understood. Whether degrees are divided as well
// differs from controller to controller.
func (t *talker) judgeInches(name string, got float64) finding {
	if got == 0 {
		return finding{}
	}
	for _, a := range t.axes {
		if a.Kind == rig.Rotary {
			return finding{refuse: fmt.Sprintf("inches: %s is %g, so that it reports places in inches, and whether it divides the degrees of axis %s too cannot be told: "+
				"where the rig stands would not be known. Set %s=0", name, got, a.Name, name)}
		}
	}
	t.inches = true
	return finding{tell: fmt.Sprintf("it reports places in inches (%s=%g): they are read as such", name, got)}
}

func (t *talker) judgeHoming(name string, got float64) finding {
	if got != 0 || !t.canHome() {
		return finding{}
	}
	t.homesNot = true
	return finding{tell: fmt.Sprintf("it does not home (%s=%g), though the rig file has a line for it: axes are brought to the start by hand", name, got)}
}

func (t *talker) judgeLaser(name string, got float64) finding {
	if got == 0 {
		return finding{}
	}
	return finding{refuse: fmt.Sprintf("laser mode: %s is %g: it then runs through changes of its output without coming to rest, and rests and paces are not as planned. Set %s=0", name, got, name)}
}

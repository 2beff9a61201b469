package report

import (
	"fmt"
	"math"
	"strconv"

	"seamrail/motion/base/unit"
	"seamrail/motion/drivetrain/torque"
	"seamrail/motion/plan"
)

// motorDigits is how many digits torques keep in words: curves are read off a
// printed page.
const motorDigits = 3

// motors tells whether the motors do it, and what the load does without them.
func (p *page) motors(pl *plan.Plan) {
	all := torque.Examine(pl)
	if len(all) == 0 {
		return
	}
	p.Section("MOTORS")
	for _, a := range all {
		p.Inked(levelInks[a.Level], a.Name, motorWords(a))
		p.Field("", "worst "+momentWhere(pl, a.Worst))
		for _, c := range cureWords(a) {
			p.Bullet(green, "+", "axis "+a.Name+": "+c)
		}
		p.Field("power off", releaseWords(a))
	}
}

var levelInks = map[torque.Level]string{torque.Enough: green, torque.Tight: yellow, torque.Short: red, torque.Unknown: dim}

// motorWords says what is needed and what there is.
func motorWords(a torque.Axis) string {
	w := a.Worst
	speed := "at " + digits(w.Speed, motorDigits) + " turns/s"
	held := a.Drive.Motor.Holding
	switch {
	case a.Level == torque.Unknown:
		return fmt.Sprintf("needs %s %s; what the motor has, the rig does not say", newtonMetres(w.Needs), speed)
	case math.IsInf(w.Needs, 1):
		return "no motor does it: the speed jumps"
	case held > 0 && held < a.Standing:
		return fmt.Sprintf("cannot hold its load: that turns it with %s at rest, and it holds %s", newtonMetres(a.Standing), newtonMetres(held))
	case w.Has == 0:
		return fmt.Sprintf("needs %s %s, beyond the last speed of its torque table", newtonMetres(w.Needs), speed)
	case math.IsInf(a.Margin, 1):
		return "nothing is asked of the motor"
	}
	words := fmt.Sprintf("needs %s of the %s it has %s: %s times over", newtonMetres(w.Needs), newtonMetres(w.Has), speed, digits(a.Margin, motorDigits))
	switch a.Level {
	case torque.Short:
		return words + ", it loses steps"
	case torque.Tight:
		return words + ", less than the " + digits(a.Reserve, motorDigits) + " times that are wanted"
	}
	return words
}

func momentWhere(pl *plan.Plan, m torque.Moment) string {
	if m.Phase != "loop" {
		return "in the " + m.Phase
	}
	return where(pl, m.Seconds)
}

// cureWords says what would do instead.
func cureWords(a torque.Axis) []string {
	var out []string
	if s := a.Cures.Slower; s > 1 {
		out = append(out, "would do with the whole move, dwells included, "+digits(s, motorDigits)+" times as long")
	}
	if m := a.Cures.Lighter; m > 0 && m < 1 {
		out = append(out, "would do with "+loadWords(a, m))
	}
	if t := a.Cures.Torque; t > 0 && a.Drive.Motor.At(a.Worst.Speed) < t {
		out = append(out, fmt.Sprintf("would do with a motor that has %s at %s turns/s", newtonMetres(t), digits(a.Worst.Speed, motorDigits)))
	}
	return out
}

// loadWords is a load of a share of the mass.
func loadWords(a torque.Axis, share float64) string {
	mass := a.Drive.Load.Mass * share
	if a.Drive.Rotary {
		return "a load of " + digits(mass, motorDigits) + " kg mm2"
	}
	return "a load of " + digits(mass, motorDigits) + " kg"
}

func lengthOf(name string) unit.Dimension {
	if name == "deg" {
		return unit.Angle
	}
	return unit.Length
}

func sensible(v float64) float64 { return rounded(v, motorDigits) }

func newtonMetres(v float64) string { return digits(v, motorDigits) + " N m" }

func digits(v float64, n int) string {
	if math.IsInf(v, 0) {
		return "unbounded"
	}
	return strconv.FormatFloat(rounded(v, n), 'f', -1, 64)
}

package planreport

import (
	"math"

	"seamrail/export/report"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/unit"
	"seamrail/motion/drivetrain/motor"
	"seamrail/motion/drivetrain/torque"
	"seamrail/motion/plan/judge"
	"seamrail/motion/spec/rig"
)

// releaseWords says what the load does when the current is cut.
func releaseWords(a torque.Axis) string {
	r := a.Release
	switch r.Keeper {
	case motor.Nothing:
		words := "it falls" + downWords(r)
		if !math.IsInf(a.Reaches, 0) {
			words += ", as far as " + unit.Format(report.Rounded(a.Travel, 3), dimensions(a.Unit)[0]) + " from this move, and then has " + fallSpeed(a.Reaches, a.Unit)
		}
		return words
	case motor.Level:
		return "it stays: nothing pulls"
	}
	return "it stays: " + keeperWords(r)
}

func keeperWords(r motor.Release) string {
	times := ""
	if !math.IsInf(r.Spare, 0) {
		times = ", " + digits(r.Spare) + " times over"
	}
	switch r.Keeper {
	case motor.Brake:
		return "its brake holds" + times
	case motor.SelfHeld:
		return "what lies between holds by itself, as long as nothing shakes it"
	case motor.Friction:
		return "friction holds" + times
	}
	return "the motor's detent holds" + times
}

func downWords(r motor.Release) string {
	switch {
	case r.Down < 0:
		return " towards lower numbers"
	case r.Down > 0:
		return " towards higher numbers"
	}
	return ""
}

// fallCautions says of each axis whose load is known what happens when the
// current is cut, where something does or may.
func fallCautions(r rig.Rig) []string {
	var out []string
	for _, a := range r.Axes {
		if a.Drive == nil {
			continue
		}
		rel := a.Drive.Release()
		switch {
		case rel.Keeper == motor.Nothing:
			out = append(out, "Axis "+a.Name+" falls"+downWords(rel)+" when its motor loses power"+fallEnd(a, rel)+". Fit a brake or a counterweight, tether the load, and keep hands from under it.")
		case (rel.Keeper == motor.Friction || rel.Keeper == motor.Detent) && rel.Spare < judge.Trusted:
			out = append(out, "When its motor loses power, axis "+a.Name+" is kept from falling by little: "+keeperWords(rel)+". A knock may set it off: tether the load.")
		}
	}
	return plain.Few(out, maxOfAKind, "axes that may fall")
}

func fallEnd(a rig.Axis, r motor.Release) string {
	if a.Endless {
		return ""
	}
	return ": over its whole travel it gains " + fallSpeed(r.Reaches(a.Travel()), a.Unit())
}

// fallSpeed is a speed, in m/s where it slides: what a person has a feel for.
func fallSpeed(v float64, name string) string {
	if name == "deg" {
		return toDigits(v, 2) + " deg/s"
	}
	const mmPerMetre = 1000
	return toDigits(v/mmPerMetre, 2) + " m/s"
}

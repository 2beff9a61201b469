package planreport

import (
	"slices"

	"seamrail/motion/base/list"
	"seamrail/motion/base/plain"
	"seamrail/motion/plan"
	"seamrail/motion/plan/judge"
	"seamrail/motion/plan/stepwise"
	"seamrail/motion/spec/rig"
)

// maxOfAKind is how many axes a caution is said of one by one.
const maxOfAKind = 16

// Cautions lists what to know before the rig moves: its dangers, then what may
// keep it from moving at all. The schedule is nil where the camera runs.
func Cautions(p *plan.Plan, s *stepwise.Schedule) []string {
	return slices.Concat(Dangers(p, s), openCautions(p), letterCautions(p))
}

// openCautions warns of what holds a place in the rig file: it moves by numbers that
// nobody has measured.
func openCautions(p *plan.Plan) []string {
	open, _ := judge.Doubts(p)
	out := list.Map(judge.Told(open), func(lines string) string {
		return "Still to be measured, " + lines + ": it may go farther, faster or another way than planned."
	})
	return plain.Few(out, maxOfAKind, "axes with lines that are to be measured")
}

// Dangers lists what the rig does to those near it: what its owner wrote first,
// then what holds of every rig with such axes.
func Dangers(p *plan.Plan, s *stepwise.Schedule) []string {
	out := append([]string{}, p.Rig.Cautions...)
	linear, rotary := false, false
	for _, a := range p.Rig.Axes {
		linear = linear || a.Kind == rig.Linear
		rotary = rotary || a.Kind == rig.Rotary
	}
	out = append(out, "The rig moves without warning. Keep fingers, hair, straps and cables away from belts, screws and carriages: they pinch and they pull.")
	if linear {
		out = append(out, "A camera on a sloping rail falls when the motors lose power. Keep the rail level or add a brake or a tether.")
	}
	out = append(out, fallCautions(p.Rig)...)
	if rotary {
		out = append(out, "A turntable throws what is not fixed to it. Fix and balance the product, and try the move slowly first.")
	}
	out = append(out, frameDangers(p, s)...)
	if len(p.Stands) > 0 {
		out = append(out, "A display stand turns on when the program stops. Switch it off at its own switch before reaching in.")
	}
	stop := "Stopping the program is not an emergency stop. Have a switch within reach that cuts the motors' power."
	if p.Set != nil {
		stop = "No program stops this rig. Know its own stop button, and have a switch within reach that cuts its power."
	}
	return append(out,
		"Glass breaks and liquids spill. Keep both clear of the moving parts and of anything on mains power.",
		stop,
		"Follow local electrical and safety codes; leave mains wiring to those licensed for it.")
}

// letterCautions warns of axes whose letter the controller may well not have.
func letterCautions(p *plan.Plan) []string {
	var out []string
	for _, a := range p.Axes {
		if p.Rig.Controller.DoubtfulLetter(a.Rig) {
			out = append(out, "Axis "+a.Rig.Name+" has the letter "+a.Rig.Letter+". A plain 8-bit board has X, Y and Z alone, and refuses it. "+
				"Give the axis one of those, or, if your controller has it, say so in the rig file: letters = \"XYZ"+a.Rig.Letter+"\".")
		}
	}
	return plain.Few(out, maxOfAKind, "axes with such letters")
}

package report

import (
	"seamrail/motion/base/plain"
	"seamrail/motion/plan"
)

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

// Package fitreport says which loops keep the picture and the rig's limits, as
// text and as JSON.
package fitreport

import (
	"seamrail/motion/camera/picture"
	"seamrail/motion/law"
	"seamrail/motion/plan/loopsearch"
)

// Data is what was asked and what was found.
type Data struct {
	Title    string
	Rig      string
	Question loopsearch.Question // its From and To filled
	Laws     []law.Law           // that were tried
	Answer   loopsearch.Answer
	// Command is what plans a loop that was found, but for its flags.
	Command string
}

// Options says how the report is dressed.
type Options struct {
	Colour bool
}

// paced are the checks of a report that the pace decides.
func paced(f loopsearch.Found) []picture.Verdict {
	var out []picture.Verdict
	for _, v := range f.Report.Verdicts {
		if v.Paced {
			out = append(out, v)
		}
	}
	return out
}

package judge

import (
	"cmp"
	"fmt"
	"strings"

	"seamrail/motion/camera/picture"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
)

// doubts judges whether the rig file is known or guessed, as far as this plan stands on
// it: a number that holds a place is no measurement.
func (c Case) doubts() []picture.Verdict {
	open, guessed := Doubts(c.Plan)
	var out []picture.Verdict
	if len(open) > 0 {
		out = append(out, picture.Verdict{
			Check: "questions of the rig file",
			Text:  fmt.Sprintf("%s still to be measured, and the plan goes by what holds the place: %s", areStill(len(open)), told(open)),
		})
	}
	if len(guessed) > 0 {
		out = append(out, picture.Verdict{
			Check: "guesses of the rig file", Level: picture.Fair,
			Text: fmt.Sprintf("%s guessed, as usual of the kind, and not looked up or tried: %s", areStill(len(guessed)), told(guessed)),
		})
	}
	return out
}

func areStill(n int) string {
	if n == 1 {
		return "1 line of it is"
	}
	return fmt.Sprintf("%d lines of it are", n)
}

func told(all []rig.Doubt) string { return strings.Join(Told(all), "; ") }

// Told are lines of a rig file in words, those of a table together: "axis.rail of
// bench.toml: which it is (line 7), travel (8)".
func Told(all []rig.Doubt) []string {
	var out []string
	table := ""
	for _, d := range all {
		of, key := "controller", strings.TrimPrefix(d.Key, "controller.")
		if axis := d.Axis(); axis != "" {
			of = "axis." + axis
			key = cmp.Or(strings.TrimPrefix(strings.TrimPrefix(d.Key, of), "."), "which it is")
		}
		if of != table {
			table = of
			out = append(out, fmt.Sprintf("%s of %s: %s (line %d)", of, d.File, key, d.Line))
			continue
		}
		out[len(out)-1] += fmt.Sprintf(", %s (%d)", key, d.Line)
	}
	return out
}

// Doubts are the lines of the rig file that a plan stands on and that are still to be
// measured, or guessed: those of its axes and of the controller.
func Doubts(p *plan.Plan) (open, guessed []rig.Doubt) {
	for _, d := range p.Rig.Doubts {
		if axis := d.Axis(); axis != "" && !moves(p, axis) {
			continue
		}
		if d.Known == rig.ToMeasure {
			open = append(open, d)
		} else {
			guessed = append(guessed, d)
		}
	}
	return open, guessed
}

func moves(p *plan.Plan, axis string) bool {
	for i := range p.Axes {
		if p.Axes[i].Rig.Name == axis {
			return true
		}
	}
	return false
}

package job

import (
	"slices"
	"strings"

	"seamrail/motion/camera/lensview"
	"seamrail/motion/plan/reach"
)

// Fits says in words what would bring the plan inside the limits. Laws that
// would do for an axis share a line.
func (j *Job) Fits() []string {
	out := j.collisionFits()
	if len(j.Plan.Breaches()) > 0 {
		out = append(out, j.limitFits()...)
	}
	return append(out, j.StandFits()...)
}

// collisionFits says what would keep lens and product apart.
func (j *Job) collisionFits() []string {
	var out []string
	for _, v := range lensview.Blocking(j.Picture) {
		for _, c := range v.Cures {
			out = append(out, "would fit: "+c)
		}
	}
	return out
}

// limitFits says what would bring the plan inside the rig's limits.
func (j *Job) limitFits() []string {
	var out, axes []string
	laws := map[string][]string{}
	for _, f := range reach.Fits(j.Shot, j.Rig) {
		switch {
		case f.Axis == "":
			out = append(out, "would fit: "+f.Text)
		case f.Kind == "law":
			if !slices.Contains(axes, f.Axis) {
				axes = append(axes, f.Axis)
			}
			laws[f.Axis] = append(laws[f.Axis], lawOf(f))
		default:
			out = append(out, "axis "+f.Axis+" would fit with "+f.Text)
		}
	}
	for _, a := range axes {
		out = append(out, "axis "+a+" would fit, at this travel and loop, with law = "+strings.Join(laws[a], " or "))
	}
	if len(out) == 0 {
		out = append(out, "nothing was found that would fit: no longer loop, place, travel or law alone, nor a longer loop further in")
	}
	return out
}

func lawOf(f reach.Fit) string {
	m, _ := f.Shot.Axis(f.Axis)
	return m.Law().Name()
}

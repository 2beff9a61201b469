package cli

import (
	"slices"
	"strings"

	"seamrail/motion/reach"
	"seamrail/motion/sight"
)

// fits says in words what would bring the plan inside the limits. Laws that
// would do for an axis share a line.
func (j job) fits() []string {
	out := j.collisionFits()
	if len(j.plan.Breaches()) > 0 {
		out = append(out, j.limitFits()...)
	}
	return append(out, j.standFits()...)
}

// collisionFits says what would keep lens and product apart.
func (j job) collisionFits() []string {
	var out []string
	for _, v := range sight.Blocking(j.picture) {
		for _, c := range v.Cures {
			out = append(out, "would fit: "+c)
		}
	}
	return out
}

// limitFits says what would bring the plan inside the rig's limits.
func (j job) limitFits() []string {
	var out, axes []string
	laws := map[string][]string{}
	for _, f := range reach.Fits(j.shot, j.rig) {
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

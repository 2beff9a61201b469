package job

import (
	"errors"
	"strings"

	"seamrail/motion/base/unit"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/picture"
)

// Way is in which order axes go from one place to another, one at a time and gently, and
// what is to be said of that. It is an error where the lens would strike the product, or
// the edge of a hole, in every order; what the product turns through counts as its own.
func (j *Job) Way(from, to []float64) (axes []int, words string, err error) {
	scene, ok := lensview.Scene(j.Shot, j.Rig)
	if !ok {
		for i := range from {
			axes = append(axes, i)
		}
		return axes, "", nil
	}
	o, err := picture.InOrder(lensview.Motion(j.Trajectory), scene, from, to)
	switch {
	case err != nil:
		return nil, "", lensview.Located(err, j.Shot)
	case len(o.Missing) > 0:
		return o.Axes, "whether the lens is clear on this way is not known: it takes " + strings.Join(o.Missing, ", "), nil
	case o.Room <= 0:
		return nil, "", errors.New("in whatever order the axes go there, the lens strikes what the product turns through, or the edge of a hole, " +
			unit.Format(-o.Room, unit.Length) + " deep: jog it there, or walk through the plan")
	}
	return o.Axes, "", nil
}

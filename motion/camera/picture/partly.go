package picture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

const (
	noPush  = "distance, or focal length: a push-in, a pan and a tilt are left out"
	noTable = "shape and size of the product: what its turning does is left out"
	noEdge  = "pixels wide: the edges of the picture are left out"
)

// leftOut names what would tell more about the axes given.
func (e *eye) leftOut(axes ...int) []string {
	var out []string
	swings := e.scene.Stand.PanAxis != "" && e.find(e.scene.Stand.PanAxis) >= 0 ||
		e.scene.Stand.TiltAxis != "" && e.find(e.scene.Stand.TiltAxis) >= 0
	_, sized := e.scene.Product.Outline()
	pushes, turns := false, false
	for _, i := range axes {
		pushes = pushes || e.pushes(i)
		turns = turns || i == e.table
	}
	if e.flat && (pushes || swings && len(axes) > 1) {
		out = append(out, noPush)
	}
	if turns && !sized {
		out = append(out, noTable)
	}
	if pushes && !e.wide.Given {
		out = append(out, noEdge)
	}
	return out
}

// alongLens is the least cosine between a slide and the lens axis that counts as
// going towards the product: less than a degree off square does not.
const alongLens = 0.02

// pushes tells whether an axis carries the camera along the lens axis.
func (e *eye) pushes(axis int) bool {
	forward := e.pose(e.at(0)).Forward
	for k, i := range e.slides {
		if i == axis && math.Abs(r3.Dot(e.along[k], forward)) > alongLens {
			return true
		}
	}
	return false
}

// partly marks a verdict as one that does not see everything. What is wrong
// already stays so; what seems right is not known to be.
func (v *Verdict) partly(missing []string) {
	if len(missing) == 0 {
		return
	}
	v.Missing = append(v.Missing, missing...)
	if v.Level == Good {
		v.Level, v.partial = Unknown, true
		v.Text = "as far as known, " + v.Text
	}
}

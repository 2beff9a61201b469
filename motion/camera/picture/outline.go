package picture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// roundCorners stand for a circle: what bulges out between two of them is a seven
// thousandth of its radius at most, a fifth of a pixel where that is 1500.
const roundCorners = 180

// corners are the points of the product's body that its outline in the picture goes
// through, foot and top; the foot alone where its height is not known.
func (e *eye) corners(table float64) []r3.Vec {
	body, ok := e.scene.Product.Body(table)
	if !ok {
		return nil
	}
	var around []r2.Vec
	for _, p := range body.Outline.Points {
		if body.Outline.Round == 0 {
			around = append(around, p)
			continue
		}
		for k := range roundCorners {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / roundCorners)
			around = append(around, r2.Add(p, r2.Vec{X: body.Outline.Round * cos, Y: body.Outline.Round * sin}))
		}
	}
	heights := []float64{body.Low, body.High}
	if math.IsInf(body.High, 1) {
		heights = heights[:1]
	}
	var out []r3.Vec
	for _, z := range heights {
		for _, p := range around {
			out = append(out, r3.Vec{X: p.X, Y: p.Y, Z: z})
		}
	}
	return out
}

// The sides of the picture.
const (
	leftSide = iota
	rightSide
	lowerSide
	upperSide
	sideCount
)

var sideNames = [sideCount]string{"left", "right", "lower", "upper"}

// reach is how far the product's outline reaches past each side of the picture, in px;
// below 0 is room that is left, NaN is not known.
type reach [sideCount]float64

// reachOf is how far the product reaches in a setting; false where a part of it is not
// before the lens, and no outline can be told.
func (e *eye) reachOf(q setting) (reach, bool) {
	v := e.view(q)
	inf := math.Inf(-1)
	out := reach{inf, inf, inf, inf}
	for _, c := range e.corners(q.table) {
		x, y, depth := v.pose.See(c)
		if depth <= 0 {
			return out, false
		}
		x, y = x*v.scale, y*v.scale
		for side, to := range [sideCount]float64{-x, x, -y, y} {
			out[side] = math.Max(out[side], to)
		}
	}
	for side := range out {
		size := e.wide
		if side >= lowerSide {
			size = e.high
			if !e.scene.Product.Height.Given {
				size.Given = false
			}
		}
		out[side] -= size.Value / 2
		if !size.Given {
			out[side] = math.NaN()
		}
	}
	return out, true
}

// gone is how far all of the product is past a side, in px; 0 or less where some of it
// may be seen.
func (e *eye) gone(r reach) float64 {
	most := math.Inf(-1)
	for side := range r {
		size := e.wide.Value
		if side >= lowerSide {
			size = e.high.Value
		}
		if past := -size - r[side]; past > most {
			most = past
		}
	}
	return most
}

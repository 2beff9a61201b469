package picture

import (
	"math"

	"seamrail/motion/scene"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/camera/clearance"
)

// share is how much of the picture something takes, of its width and of its area.
type share struct{ width, area float64 }

// shown is what a hole shows: itself, and the product through it.
type shown struct{ hole, product share }

// shownThrough is what the lens sees of a hole and of the product through it. A
// point of the picture looks through the hole where its ray passes both rims; the
// LensAt is taken for a point, so that edges are sharp.
func (e *eye) shownThrough(h scene.Hole, q setting) shown {
	v := e.view(q)
	open := e.whole()
	for _, side := range []float64{-0.5, 0.5} {
		open = clip(open, v.patch(h.Rim(side)))
	}
	solid := e.solid(q, scene.MaxLength)
	if v.around(solid) {
		return shown{e.share(open), e.share(open)}
	}
	return shown{e.share(open), e.share(clip(open, v.patch(solid)))}
}

func (e *eye) share(p []r2.Vec) share {
	if len(p) < 3 {
		return share{}
	}
	left, right, area := p[0].X, p[0].X, 0.0
	for i, a := range p {
		left, right = math.Min(left, a.X), math.Max(right, a.X)
		area += r2.Cross(a, p[(i+1)%len(p)]) / 2
	}
	return share{(right - left) / e.wide.Value, area / (e.wide.Value * e.high.Value)}
}

// tall stands for the height of a product nobody gave, in mm.
const tall = 1e4

// solid are points whose hull is the product before the plane at y, or all it turns
// through there where it is not known how it stands; none where its size is not
// known.
func (e *eye) solid(q setting, y float64) []r3.Vec {
	b, ok := e.scene.Product.Body(q.table)
	if e.scene.Stand.Loose || !e.closes() {
		b, ok = e.scene.Product.Swept()
	}
	if !ok {
		return nil
	}
	before := []r2.Vec{{X: -scene.MaxLength, Y: -scene.MaxLength}, {X: scene.MaxLength, Y: -scene.MaxLength}, {X: scene.MaxLength, Y: y}, {X: -scene.MaxLength, Y: y}}
	var out []r3.Vec
	for _, p := range clip(corners(b.Outline), before) {
		out = append(out, r3.Vec{X: p.X, Y: p.Y, Z: b.Low}, r3.Vec{X: p.X, Y: p.Y, Z: math.Min(b.High, tall)})
	}
	return out
}

// corners are those of an outline, counter-clockwise, with many about what is round.
func corners(o clearance.Outline) []r2.Vec {
	if o.Round == 0 {
		return o.Points
	}
	var out []r2.Vec
	for _, p := range o.Points {
		for i := range scene.RimCorners {
			s, c := math.Sincos(2 * math.Pi * float64(i) / scene.RimCorners)
			out = append(out, r2.Add(p, r2.Vec{X: o.Round * c, Y: o.Round * s}))
		}
	}
	return clearance.Hull(out)
}

// filled is how much of the picture the product takes before the plane at y.
func (e *eye) filled(q setting, y float64) share {
	v, whole := e.view(q), e.whole()
	solid := e.solid(q, y)
	if v.around(solid) { // it reaches past the lens, and may be anywhere in the picture
		return e.share(whole)
	}
	return e.share(clip(whole, v.patch(solid)))
}

// whole is the picture's outline, in px.
func (e *eye) whole() []r2.Vec {
	x, y := e.wide.Value/2, e.high.Value/2
	return []r2.Vec{{X: -x, Y: -y}, {X: x, Y: -y}, {X: x, Y: y}, {X: -x, Y: y}}
}

// patch is where the hull of points comes in the picture; nil where one of them is
// beside or behind the lens.
func (v view) patch(points []r3.Vec) []r2.Vec {
	var out []r2.Vec
	for _, p := range points {
		x, y, depth := v.pose.See(p)
		if depth <= 0 {
			return nil
		}
		out = append(out, r2.Vec{X: x * v.scale, Y: y * v.scale})
	}
	if len(out) < 3 {
		return nil
	}
	return clearance.Hull(out)
}

// around tells whether some of the points are before the lens and some are not.
func (v view) around(points []r3.Vec) bool {
	before, behind := false, false
	for _, p := range points {
		_, _, depth := v.pose.See(p)
		before, behind = before || depth > 0, behind || depth <= 0
	}
	return before && behind
}

// clip is what two convex outlines, counter-clockwise, have in common
// (I. E. Sutherland and G. W. Hodgman, Comm. ACM 17:32-42, 1974,
// DOI 10.1145/360767.360802).
func clip(p, window []r2.Vec) []r2.Vec {
	if len(window) < 3 {
		return nil
	}
	for i, a := range window {
		side := r2.Sub(window[(i+1)%len(window)], a)
		var kept []r2.Vec
		for k, q := range p {
			next := p[(k+1)%len(p)]
			in, then := r2.Cross(side, r2.Sub(q, a)), r2.Cross(side, r2.Sub(next, a))
			if in >= 0 {
				kept = append(kept, q)
			}
			if in >= 0 != (then >= 0) {
				kept = append(kept, r2.Add(q, r2.Scale(in/(in-then), r2.Sub(next, q))))
			}
		}
		p = kept
	}
	return p
}

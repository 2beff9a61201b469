package preview

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/camera/picture"
	"seamrail/plot/preview/internal/canvas"
)

// eye sees through one point of the lens' opening, at one instant.
//
// A point off the plane in focus is seen elsewhere through each point of the
// opening, and one in that plane at the same place through all: the mean over
// the opening is what a thin lens makes of it (similar triangles).
type eye struct {
	picture.Sight
	scale  float64 // px of the preview for a tangent of 1
	middle r3.Vec  // X, Y: px of the lens axis
	dx, dy float64 // mm right of and above the lens axis
}

// nearest is how near, in mm, a thing may come to the lens and still be drawn:
// nearer, it is a blur without shape.
const nearest = 2.0

// local returns a place as mm right of, above and along the lens axis.
func (e *eye) local(p r3.Vec) r3.Vec {
	d := r3.Sub(p, e.Pose.At)
	return r3.Vec{X: r3.Dot(d, e.Pose.Right), Y: r3.Dot(d, e.Pose.Up), Z: r3.Dot(d, e.Pose.Forward)}
}

// spot is where a local place comes on the canvas.
func (e *eye) spot(q r3.Vec) canvas.Point {
	shift := 1/e.Focus - 1/q.Z
	x, y := q.X/q.Z+e.dx*shift, q.Y/q.Z+e.dy*shift
	return canvas.Point{X: float32(e.middle.X + e.scale*x), Y: float32(e.middle.Y - e.scale*y)}
}

// see appends where a polygon comes on the canvas, cut where it passes the lens.
func (e *eye) see(out []canvas.Point, polygon []r3.Vec) []canvas.Point {
	if len(polygon) == 0 {
		return out
	}
	last := e.local(polygon[len(polygon)-1])
	for _, p := range polygon {
		q := e.local(p)
		if (q.Z >= nearest) != (last.Z >= nearest) {
			share := (nearest - last.Z) / (q.Z - last.Z)
			cut := r3.Add(last, r3.Scale(share, r3.Sub(q, last)))
			cut.Z = nearest
			out = append(out, e.spot(cut))
		}
		if q.Z >= nearest {
			out = append(out, e.spot(q))
		}
		last = q
	}
	return out
}

// blur is how many px across a place at that depth is smeared by an opening of
// so many mm.
func (e *eye) blur(depth, iris float64) float64 {
	return e.scale * iris * math.Abs(1/e.Focus-1/depth)
}

// horizon is the row of what is level with the lens, which may be far outside
// the canvas.
func (e *eye) horizon() float64 {
	level := math.Hypot(e.Pose.Forward.X, e.Pose.Forward.Y)
	if level < 1e-9 {
		return math.Copysign(1e9, e.Pose.Forward.Z)
	}
	return e.middle.Y + e.scale*e.Pose.Forward.Z/level
}

// Package pose is where things stand and how they come into the picture.
//
// One frame of reference holds the whole scene. It is right-handed, in mm and
// degrees: x to the right of the camera, y the way the camera looks when its
// pan is 0, z up; the origin is on the axis of the turntable, in the plane of
// its top. Every turn about the vertical is counter-clockwise as seen from
// above: a heading of 0 is along y, of 90 to the camera's left. Tilt is above
// the level.
//
// In the picture x runs right and y up, as the viewer sees it: the image is
// already turned upright.
package pose

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

const radian = math.Pi / 180

// Direction returns the unit vector of a heading and a rise above the level,
// in degrees.
func Direction(heading, rise float64) r3.Vec {
	sh, ch := math.Sincos(heading * radian)
	sr, cr := math.Sincos(rise * radian)
	return r3.Vec{X: -sh * cr, Y: ch * cr, Z: sr}
}

// Turned returns p turned by so many degrees about the table's axis.
func Turned(p r3.Vec, degrees float64) r3.Vec {
	s, c := math.Sincos(degrees * radian)
	return r3.Vec{X: c*p.X - s*p.Y, Y: s*p.X + c*p.Y, Z: p.Z}
}

// Pose is where the lens is and which way it looks.
type Pose struct {
	At                 r3.Vec // the lens: its principal point
	Right, Up, Forward r3.Vec // unit vectors
}

// NewPose returns the pose of a lens at a point, panned and tilted by degrees.
func NewPose(at r3.Vec, pan, tilt float64) Pose {
	s, c := math.Sincos(pan * radian)
	p := Pose{At: at, Right: r3.Vec{X: c, Y: s}, Forward: Direction(pan, tilt)}
	p.Up = r3.Cross(p.Right, p.Forward)
	return p
}

// See returns where a point comes, as tangents of the angles right of and
// above the lens axis, and how far along that axis it is in mm. A depth of 0
// or less is beside or behind the lens, and x and y then mean nothing.
func (p Pose) See(q r3.Vec) (x, y, depth float64) {
	d := r3.Sub(q, p.At)
	depth = r3.Dot(d, p.Forward)
	if depth <= 0 {
		return 0, 0, depth
	}
	return r3.Dot(d, p.Right) / depth, r3.Dot(d, p.Up) / depth, depth
}

// Point is the inverse of See: the point at those tangents and that depth.
func (p Pose) Point(x, y, depth float64) r3.Vec {
	d := r3.Add(p.Forward, r3.Add(r3.Scale(x, p.Right), r3.Scale(y, p.Up)))
	return r3.Add(p.At, r3.Scale(depth, d))
}

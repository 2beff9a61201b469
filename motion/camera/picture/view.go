package picture

import (
	"math"
	"slices"

	"seamrail/motion/scene"

	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/camera/pose"
)

// view is the picture in one setting, as seen from the lens' entrance pupil.
type view struct {
	pose  pose.Pose
	scale float64 // px for a tangent of 1
	table float64 // degrees
	focus float64 // mm from the pupil to the plane in focus
}

func (e *eye) view(q setting) view {
	return view{pose: e.pupil(q), scale: e.imageAt(q.focus) / e.pitch.Value, table: q.table, focus: q.focus - e.ahead}
}

// pupil is where the entrance pupil is in a setting.
func (e *eye) pupil(q setting) pose.Pose {
	p := e.pose(q)
	p.At = p.Point(0, 0, e.ahead)
	return p
}

// pixel is a place in the picture, in px right of and above its middle.
type pixel struct{ x, y float64 }

func (p pixel) to(q pixel) float64 { return math.Hypot(q.x-p.x, q.y-p.y) }

// spot is a point that is followed through the picture.
type spot struct {
	name   string
	at     r3.Vec  // Lights it is when the table is at turned
	turned float64 // degrees
	rides  bool    // on the table
}

// place is where a spot is in the view.
func (v view) place(s spot) r3.Vec {
	if s.rides {
		return pose.Turned(s.at, v.table-s.turned)
	}
	return s.at
}

// see returns where a spot comes in the view; ok is false behind the lens.
func (v view) see(s spot) (pixel, bool) {
	x, y, depth := v.pose.See(v.place(s))
	return pixel{x * v.scale, y * v.scale}, depth > 0
}

// edgeSlack keeps a spot on the very edge of the picture in it, in px.
const edgeSlack = 1e-6

// inside tells whether a place is in the picture, whose size may not be known.
func (e *eye) inside(p pixel) bool {
	in := func(v float64, size scene.Number) bool { return !size.Given || math.Abs(v) <= size.Value/2+edgeSlack }
	return in(p.x, e.wide) && in(p.y, e.high)
}

// spotsIn returns the spots of a setting: places on the product, which ride on
// the table, and places in the plane of focus at the edges and corners of the
// picture, which stand. Those outside the picture are left out.
func (e *eye) spotsIn(q setting) []spot {
	v := e.view(q)
	return slices.DeleteFunc(append(e.productSpots(q, v), e.edgeSpots(q, v)...), func(s spot) bool {
		p, ok := v.see(s)
		return !ok || !e.inside(p)
	})
}

func (e *eye) productSpots(q setting, v view) []spot {
	p := e.scene.Product
	middle := p.Middle(q.table)
	ride := func(name string, at r3.Vec) spot { return spot{name, at, q.table, true} }
	face, ok := p.Face(q.table, e.pose(q).At)
	if !ok {
		return []spot{ride("axis", middle)}
	}
	out := []spot{ride("near face", face)}
	if p.Height.Given {
		half := r3.Vec{Z: p.Height.Value / 2}
		out = append(out, ride("top of near face", r3.Add(face, half)), ride("foot of near face", r3.Sub(face, half)))
	}
	side := r3.Scale(p.Girth(), v.pose.Right)
	return append(out, ride("left rim", r3.Sub(middle, side)), ride("right rim", r3.Add(middle, side)))
}

func (e *eye) edgeSpots(q setting, v view) []spot {
	if !e.wide.Given {
		return nil
	}
	x := e.wide.Value / 2 / v.scale
	stand := func(name string, x, y float64) spot { return spot{name, v.pose.Point(x, y, v.focus), 0, false} }
	out := []spot{stand("left edge", -x, 0), stand("right edge", x, 0)}
	if e.high.Given {
		y := e.high.Value / 2 / v.scale
		out = append(out, stand("lower left corner", -x, -y), stand("lower right corner", x, -y),
			stand("upper left corner", -x, y), stand("upper right corner", x, y))
	}
	return out
}

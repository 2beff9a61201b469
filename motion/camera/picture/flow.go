package picture

import (
	"math"

	"seamrail/motion/scene"
)

// Flow is where the picture is and how it moves at one instant, at the point
// that the eye follows: the near face of the product, or its axis where its
// shape is not known, or the middle of the picture in the plane of focus where
// the product is not in the picture. Lengths are picture widths, speeds picture
// widths per on-screen second.
type Flow struct {
	X, Y      float64 // right of and above the picture's middle
	Size      float64 // magnification, image over object; of no use where the distance is not known
	Right, Up float64
	// Toward is the speed at which the picture's left and right edge would leave
	// its middle if everything were as deep as the point: growing by a share of g
	// a second moves each by g/2. Below 0 it shrinks.
	Toward   float64
	Followed string // the point's name
}

// Middle is what is followed where the product is not in the picture. Its place
// tells nothing.
const Middle = "middle of the picture"

// Speed is the length of the three parts of the flow together.
func (f Flow) Speed() float64 { return math.Sqrt(f.Right*f.Right + f.Up*f.Up + f.Toward*f.Toward) }

// Flows are the flows of a move at some instants.
type Flows struct {
	At      []Flow   // nil where something is missing
	Missing []string // what it would take to tell them
	LeftOut []string // what they leave out, and the numbers that would tell
}

// FlowsAt tells how the picture moves at some instants, in real seconds from
// frame 0 of an endless loop. Every axis is taken to go on as it goes at that
// very instant, so that a kink before it does not count. The error, a
// fault.List, is that of Examine.
func FlowsAt(m Motion, s scene.Scene, seconds []float64) (Flows, error) {
	e, err := newEye(m, s)
	if err != nil {
		return Flows{}, err
	}
	f := Flows{Missing: append([]string{}, e.missing...), LeftOut: e.leftOut(e.seen()...)}
	if !e.wide.Given {
		f.Missing = append(f.Missing, "pixels wide")
	}
	if len(f.Missing) > 0 {
		return f, nil
	}
	for _, sec := range seconds {
		f.At = append(f.At, e.flow(sec))
	}
	return f, nil
}

// moving is the setting by so much later than sec, with every axis at the speed
// it has there.
func (e *eye) moving(sec, by float64) setting {
	return e.settingOf(func(i int) float64 {
		s := e.motion.State(i, sec)
		return s.Pos + s.Vel*by
	})
}

func (e *eye) flow(sec float64) Flow {
	h := e.frame * speedSpan / 2
	now := e.at(sec)
	v := e.view(now)
	point := e.followed(now, v)
	before, after := e.view(e.moving(sec, -h)), e.view(e.moving(sec, h))
	at, _ := v.see(point)
	a, _ := before.see(point)
	b, _ := after.see(point)
	perScreen := e.retime / (2 * h)
	size := v.sizeAt(point)
	return Flow{
		X: at.x / e.wide.Value, Y: at.y / e.wide.Value, Size: size * e.pitch.Value, Followed: point.name,
		Right: (b.x - a.x) / e.wide.Value * perScreen, Up: (b.y - a.y) / e.wide.Value * perScreen,
		Toward: (after.sizeAt(point) - before.sizeAt(point)) / size / 2 * perScreen,
	}
}

// sizeAt is how many px a millimetre is as deep as a spot lies.
func (v view) sizeAt(s spot) float64 {
	_, _, depth := v.pose.See(v.place(s))
	return v.scale / depth
}

// followed is the spot that the eye follows in a setting.
func (e *eye) followed(q setting, v view) spot {
	s := e.productSpots(q, v)[0]
	if p, ok := v.see(s); ok && e.inside(p) {
		return s
	}
	return spot{Middle, v.pose.Point(0, 0, v.focus), 0, false}
}

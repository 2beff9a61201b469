package picture

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/space"
)

// passage is how a tube of the lens goes through a hole.
type passage struct {
	margin float64 // mm left all round, least over the take; +Inf where it never enters
	at     float64 // s
	deep   float64 // mm that the front comes out on the far side, at most
}

// called names a hole in a sentence.
func (h Hole) called() string { return strings.TrimSpace("hole " + h.Name) }

func (e *eye) holeVerdict(h Hole) Verdict {
	check := h.called()
	missing := e.bodyMissing()
	if !h.Diameter.Given {
		missing = append(missing, "diameter of the "+h.called())
	}
	if len(missing) > 0 {
		return unknown(check, "whether the lens passes through", missing...)
	}
	p := e.passage(h)
	if math.IsInf(p.margin, 1) {
		return Verdict{Check: check, Level: Good, Text: "the lens never enters the " + h.called()}
	}
	tilt := e.slack(p.margin, math.Max(0, p.deep+h.Thickness))
	v := Verdict{Check: check, Level: Good, When: e.moment(p.at)}
	v.figure("margin", p.margin, "mm")
	v.figure("depth", p.deep, "mm")
	v.figure("misalignment", tilt, "deg")
	e.holeWords(&v, h, p.margin, mm(p.margin)+" of sideways error, or "+short(tilt)+" deg of rail angle")
	return v
}

func (e *eye) holeWords(v *Verdict, h Hole, margin float64, allowed string) {
	wider := "a hole of " + mm(h.Diameter.Value+2*(e.bounds.HoleMargin-margin))
	switch {
	case margin <= 0:
		v.Level = Block
		v.Text = fmt.Sprintf("the lens strikes the edge of the %s at frame %d by %s: do not drive", h.called(), v.When.Frame, mm(-margin))
		v.Cures = []string{wider, "the rail lined up with the middle of the hole"}
	case margin < e.bounds.HoleMargin:
		v.Level = Fair
		v.Text = "the lens passes the " + h.called() + " with little to spare: it allows " + allowed
		v.Cures = []string{wider}
	default:
		v.Text = "the lens passes the " + h.called() + " and allows " + allowed
	}
}

// slack is the angle, in degrees, that a rail may be off when there is so much
// margin: going so far in, the lens strays by way*tan, and aslant its widest
// part takes up radius/cos. Both grow, so the angle is found by halving.
func (e *eye) slack(margin, way float64) float64 {
	radius := 0.0
	for _, t := range e.scene.Lens.tubes() {
		radius = math.Max(radius, t.radius)
	}
	lo, hi := 0.0, math.Pi/2
	for range 60 {
		if mid := (lo + hi) / 2; radius*(1/math.Cos(mid)-1)+way*math.Tan(mid) <= margin {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo * 180 / math.Pi
}

// bodyMissing names what is missing of the lens as a body in its place.
func (e *eye) bodyMissing() []string {
	var missing []string
	if len(e.scene.Lens.tubes()) == 0 {
		missing = append(missing, "front or barrel of the lens")
	}
	if e.flat {
		missing = append(missing, "distance")
	}
	return missing
}

func (e *eye) passage(h Hole) passage {
	out := passage{margin: math.Inf(1), deep: math.Inf(-1)}
	stride := e.stride(h)
	thick := h
	thick.Thickness += 2 * stride
	for _, t := range e.scene.Lens.tubes() {
		margin, at := e.nearest(func(q setting) float64 {
			m, deep := e.margin(thick, t, q)
			out.deep = math.Max(out.deep, deep+stride)
			return m
		})
		if margin < out.margin {
			out.margin, out.at = margin, at
		}
	}
	return out
}

// stride is how far the lens goes along a hole between two looks, at most. A
// board thicker by that on either side cannot be passed unseen.
func (e *eye) stride(h Hole) float64 {
	most := 0.0
	for _, s := range e.stretches() {
		last := math.NaN()
		s.look(func(_ float64, q setting) {
			front, _ := h.axisLine(e.pose(q), tube{})
			if step := math.Abs(front.Y - last); step > most {
				most = step
			}
			last = front.Y
		})
	}
	return most
}

// margin is how much room is left about a tube where it is inside the board,
// +Inf where it is not, and how far its front stands out on the far side. A
// tube aslant to the hole takes radius/cos of its slant across.
func (e *eye) margin(h Hole, t tube, q setting) (margin, deep float64) {
	front, back := h.axisLine(e.pose(q), t)
	half := h.Thickness / 2
	if back.Y > front.Y {
		front, back = back, front
	}
	deep = front.Y - half
	if front.Y < -half || back.Y > half || front.Y == back.Y {
		return math.Inf(1), deep
	}
	off := 0.0
	for _, y := range []float64{math.Max(-half, back.Y), math.Min(half, front.Y)} {
		u := (y - back.Y) / (front.Y - back.Y)
		off = math.Max(off, math.Hypot(back.X+u*(front.X-back.X), back.Z+u*(front.Z-back.Z)))
	}
	length := math.Abs(t.from - t.to)
	across := t.radius * length / (front.Y - back.Y)
	return h.Diameter.Value/2 - off - across, deep
}

// axisLine is the line of the lens from a tube's front to its back in the
// frame of a hole: x across, y along the hole, z up, from its middle.
func (h Hole) axisLine(p space.Pose, t tube) (front, back r3.Vec) {
	in := func(d float64) r3.Vec {
		v := r3.Sub(p.Point(0, 0, d), h.Centre)
		return space.Turned(v, -h.Heading)
	}
	return in(t.from), in(t.to)
}

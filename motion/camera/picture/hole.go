package picture

import (
	"fmt"
	"math"

	"seamrail/motion/scene"

	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/base/root"
	"seamrail/motion/camera/pose"
)

// passage is how a tube of the lens goes through a hole.
type passage struct {
	margin float64 // mm left all round, least over the take; +Inf where it never enters
	at     float64 // s
	deep   float64 // mm that the front comes out on the far side, at most
	home   bool    // at is not in the take but on the way from home to it, as a share of an axis' way
}

func (e *eye) holeVerdict(k int) Verdict {
	h := e.scene.Holes[k]
	check := h.Called()
	missing := e.bodyMissing()
	if !h.Diameter.Given {
		missing = append(missing, "diameter of the "+h.Called())
	}
	if len(missing) > 0 {
		return unknown(check, "whether the lens passes through", missing...)
	}
	p := e.passage(h)
	if math.IsInf(p.margin, 1) {
		return Verdict{Check: check, Level: Good, Text: "the lens never enters the " + h.Called()}
	}
	tilt := e.slack(p.margin, math.Max(0, p.deep+h.Thickness))
	v := Verdict{Check: check, Level: Good}
	if !p.home {
		v.When = e.moment(p.at)
	}
	v.figure("margin", p.margin, "mm")
	v.figure("depth", p.deep, "mm")
	v.figure("misalignment", tilt, "deg")
	v.gauge = -p.margin
	e.holeWords(&v, k, p.margin, mm(p.margin)+" of sideways error, or "+short(tilt)+" deg of rail angle")
	return v
}

func (e *eye) holeWords(v *Verdict, k int, margin float64, allowed string) {
	h := e.scene.Holes[k]
	when := "on its way from home"
	if v.When != nil {
		when = fmt.Sprintf("at frame %d", v.When.Frame)
	}
	wider := math.Ceil(h.Diameter.Value + 2*(e.bounds.HoleMargin-margin))
	widen := func(s *scene.Scene) { s.Holes[k].Diameter = scene.Is(wider) }
	switch {
	case margin <= 0:
		v.Level = Block
		v.Text = fmt.Sprintf("the lens strikes the edge of the %s %s by %s: do not drive", h.Called(), when, mm(-margin))
		v.try(ofHoles, widen, "a hole of %s", mm(wider)).as(of("scene.holes", k, "diameter"), typed(wider, "mm"))
		v.advise("the rail lined up with the middle of the hole, where they are apart")
		if v.When == nil {
			v.advise("the board put there once the rig stands at its start")
		}
	case margin < e.bounds.HoleMargin:
		v.Level = Fair
		v.Text = "the lens passes the " + h.Called() + " with little to spare: it allows " + allowed
		v.try(ofHoles, widen, "a hole of %s", mm(wider)).as(of("scene.holes", k, "diameter"), typed(wider, "mm"))
	default:
		v.Text = "the lens passes the " + h.Called() + " and allows " + allowed
	}
}

// slack is the angle, in degrees, that a rail may be off when there is so much
// margin: going so far in, the lens strays by way*tan, and aslant its widest
// part takes up radius/cos. Both grow, so the angle is found by halving.
func (e *eye) slack(margin, way float64) float64 {
	radius := 0.0
	for _, t := range tubesOf(e.scene.Lens) {
		radius = math.Max(radius, t.radius)
	}
	lo, _ := root.Bisect(0, math.Pi/2, 60, 0,
		func(a float64) bool { return radius*(1/math.Cos(a)-1)+way*math.Tan(a) <= margin })
	return lo * 180 / math.Pi
}

// bodyMissing names what is missing of the lens as a body in its place.
func (e *eye) bodyMissing() []string {
	var missing []string
	if len(tubesOf(e.scene.Lens)) == 0 {
		missing = append(missing, "front or barrel of the lens")
	}
	if e.flat {
		missing = append(missing, "distance")
	}
	return missing
}

// passage looks at the whole take and at the way from home to it. Where a tube
// comes to the board or leaves it between two looks, it is looked at a grain apart.
func (e *eye) passage(h scene.Hole) passage {
	out := passage{margin: math.Inf(1), deep: math.Inf(-1)}
	more := math.Min(e.stride(h), grain)
	e.passes(&out, h, more, e.stretches(), false)
	e.passes(&out, h, more, e.approach(), true)
	out.deep += more
	return out
}

// passes looks at all tubes along stretches, the board being thicker by so much on
// either side.
func (e *eye) passes(out *passage, h scene.Hole, more float64, along []stretch, home bool) {
	h.Thickness += 2 * more
	for _, t := range tubesOf(e.scene.Lens) {
		for _, s := range along {
			e.pass(out, h, t, s, home)
		}
	}
}

// grain is how far a tube goes along a hole between two looks where it comes to the
// board or leaves it, in mm: half of what the thinnest front is long.
const grain = 0.05

// maxGrains bounds how often a step between two looks is cut: 50 mm of it are
// looked at in grains, and nothing goes so far between half frames.
const maxGrains = 1000

// pass looks at one tube in one stretch.
func (e *eye) pass(out *passage, h scene.Hole, t tube, s stretch, home bool) {
	last, from, inside := [2]float64{math.NaN(), math.NaN()}, math.NaN(), false
	look := func(sec float64, q setting) bool {
		m, deep := e.margin(h, t, q)
		out.deep = math.Max(out.deep, deep)
		if m < out.margin {
			out.margin, out.at, out.home = m, sec, home
		}
		return !math.IsInf(m, 1)
	}
	s.look(func(sec float64, q setting) {
		front, back := axisLine(h, e.pose(q), t)
		ends := [2]float64{math.Min(front.Y, back.Y), math.Max(front.Y, back.Y)}
		now := look(sec, q)
		low, high := math.Min(ends[0], last[0]), math.Max(ends[1], last[1])
		step := math.Max(math.Abs(ends[0]-last[0]), math.Abs(ends[1]-last[1]))
		if step > grain && !(now && inside) && low <= h.Thickness/2 && high >= -h.Thickness/2 {
			n := math.Min(math.Ceil(step/grain), maxGrains)
			for j := 1.0; j < n; j++ {
				between := from + (sec-from)*j/n
				look(between, s.at(between))
			}
		}
		last, from, inside = ends, sec, now
	})
}

// stride is how far the lens goes along a hole between two looks, at most.
func (e *eye) stride(h scene.Hole) float64 {
	most := 0.0
	for _, s := range e.stretches() {
		last := math.NaN()
		s.look(func(_ float64, q setting) {
			front, _ := axisLine(h, e.pose(q), tube{})
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
func (e *eye) margin(h scene.Hole, t tube, q setting) (margin, deep float64) {
	front, back := axisLine(h, e.pose(q), t)
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
	length := t.from - t.to
	across := t.radius * length / (front.Y - back.Y)
	return h.Diameter.Value/2 - off - across, deep
}

// axisLine is the line of the lens from a tube's front to its back in the
// frame of a hole: x across, y along the hole, z up, from its middle.
func axisLine(h scene.Hole, p pose.Pose, t tube) (front, back r3.Vec) {
	in := func(d float64) r3.Vec {
		v := r3.Sub(p.Point(0, 0, d), h.Centre)
		return pose.Turned(v, -h.Heading)
	}
	return in(t.from), in(t.to)
}

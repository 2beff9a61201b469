package picture

import (
	"math"

	"seamrail/motion/scene"

	"gonum.org/v1/gonum/spatial/r2"

	"seamrail/motion/camera/clearance"
	"seamrail/motion/camera/pose"
)

// tube is a round part of the lens, in mm: a cylinder about the lens axis from
// From ahead of the principal point back to To, below 0 behind it.
type tube struct{ from, to, radius float64 }

// tubes are the front of the lens and its barrel, as far as they are known. A
// front of no stated length is a disc a tenth of a millimetre thick. The barrel
// begins where a front narrower than it ends.
func tubesOf(l scene.Lens) []tube {
	const disc = 0.1
	ahead := l.FrontAhead.Or(0)
	var out []tube
	if l.FrontDiameter.Given {
		out = append(out, tube{ahead, ahead - math.Max(disc, l.FrontLength.Or(0)), l.FrontDiameter.Value / 2})
	}
	if l.BarrelDiameter.Given && l.BarrelLength.Given {
		begins := 0.0
		if l.FrontDiameter.Given && l.FrontDiameter.Value < l.BarrelDiameter.Value {
			begins = l.FrontLength.Or(0)
		}
		if begins < l.BarrelLength.Value {
			out = append(out, tube{ahead - begins, ahead - l.BarrelLength.Value, l.BarrelDiameter.Value / 2})
		}
	}
	return out
}

// Body is the upright block about a tube: its rectangle from above between its
// lowest and its highest part. It is a little larger than the tube, never
// smaller, so that a gap told is never more than the gap there is.
func (t tube) body(p pose.Pose) clearance.Body {
	a, b := p.Point(0, 0, t.from), p.Point(0, 0, t.to)
	level := math.Hypot(p.Forward.X, p.Forward.Y) // cos of the tilt
	slope := math.Abs(p.Forward.Z)
	// The round ends of a tilted tube reach ahead and behind from above.
	ahead := r2.Vec{X: -p.Right.Y, Y: p.Right.X}
	over := r2.Scale(t.radius*slope, ahead)
	front, back := r2.Vec{X: a.X, Y: a.Y}, r2.Vec{X: b.X, Y: b.Y}
	high := t.radius * level
	return clearance.Body{
		Outline: clearance.Bar(r2.Sub(back, over), r2.Add(front, over), t.radius),
		Low:     math.Min(a.Z, b.Z) - high, High: math.Max(a.Z, b.Z) + high,
	}
}

// gap is the least distance between lens and a product's body, NaN where one
// of them is not known.
func (e *eye) gap(q setting, body clearance.Body, ok bool) float64 {
	tubes := tubesOf(e.scene.Lens)
	if !ok || e.flat || len(tubes) == 0 {
		return math.NaN()
	}
	least, p := math.Inf(1), e.pose(q)
	for _, t := range tubes {
		least = math.Min(least, clearance.Gap(t.body(p), body))
	}
	return least
}

// gapAt is the clearance between lens and product in a setting.
func (e *eye) gapAt(q setting) float64 {
	b, ok := e.scene.Product.Body(q.table)
	return e.gap(q, b, ok)
}

// sweptGapAt is the clearance between the lens and all the product may turn to.
func (e *eye) sweptGapAt(q setting) float64 {
	b, ok := e.scene.Product.Swept()
	return e.gap(q, b, ok)
}

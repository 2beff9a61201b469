package spin

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"seamrail/export/report/spinreport"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/turntable/spin"
	"seamrail/plot/chart/spinplot"
)

// pictureBins is how finely a curve is drawn, about one a pixel.
const pictureBins = 500

// spinPicture is what the picture shows; p is the plan of a shot, or nil.
func spinPicture(d spinreport.Data, p *plan.Plan) spinplot.Data {
	m := measureOf(d.Query)
	out := spinplot.Data{
		Title: "Which loops close?", Unit: m.unit, Bound: m.bound, Within: m.within,
		Lines: []string{d.Title, pictureProducts(d.Query), fmt.Sprintf("captured at %s, played at %s frames/s", d.Query.Clock.Capture.Decimal(3), d.Query.Clock.Playback.Decimal(3))},
	}
	curves := spin.Curves(d.Query, pictureBins)
	if left := len(curves) - maxCurves; left > 0 {
		slices.SortStableFunc(curves, func(a, b spin.Curve) int { return cmp.Compare(leastShare(a), leastShare(b)) })
		curves = curves[:maxCurves]
		out.Lines = append(out.Lines, fmt.Sprintf("the %d of all speeds and rates that come nearest; %d are left out", maxCurves, left))
	}
	for _, c := range curves {
		out.Curves = append(out.Curves, pictureCurve(d, c, m))
	}
	best := d.Answer.Loops[0]
	out.Screen = best.OnScreen().Float()
	out.Best = fmt.Sprintf("%s, %s s on screen", plain.Count(best.Captured, "captured frame"), best.OnScreen().Decimal(3))
	out.Phases = append(out.Phases, carriagePhase(best, p))
	for _, s := range best.Seams {
		out.Phases = append(out.Phases, productPhase(best, s))
	}
	return out
}

// maxCurves is how many colours there are.
const maxCurves = 7

// leastShare is the least error of a curve, in shares of the bound.
func leastShare(c spin.Curve) float64 {
	least := math.Inf(1)
	for _, p := range c.Points {
		least = min(least, p.Share)
	}
	return least
}

// measure is what errors are drawn in.
type measure struct {
	unit   string
	bound  float64
	within string
	// of takes the size of an error in turns, and as a share of its bound.
	of func(turns, share float64) float64
}

// measureOf takes the finest measure that is known of a single product, and
// shares of the bound of several.
func measureOf(q spin.Query) measure {
	p := q.Products[0]
	scale := 1.0
	switch {
	case len(q.Products) > 1:
		return measure{"times the bound", 1, "the bound", func(_, share float64) float64 { return share }}
	case p.Radius.Sign() == 0:
		return measure{"degrees", boundIn(q, func(turns exact.Rat) float64 { return turns.Float() * 360 }), p.Bound().String(),
			func(turns, _ float64) float64 { return turns * 360 }}
	}
	name := "mm"
	if p.Scale.Sign() > 0 {
		name, scale = "px", p.Scale.Float()
	}
	chord := func(turns float64) float64 { return 2 * p.Radius.Float() * math.Sin(math.Pi*turns) * scale }
	return measure{name, boundIn(q, func(turns exact.Rat) float64 { return chord(turns.Float()) }), p.Bound().String(),
		func(turns, _ float64) float64 { return chord(turns) }}
}

// boundIn returns the bound in a measure, and 0 where speeds and rates give it
// more than one value.
func boundIn(q spin.Query, in func(turns exact.Rat) float64) float64 {
	p := q.Products[0]
	if b := p.Bound(); b.Unit == spin.CapturedFrames && (len(p.Stand.Speeds) > 1 || len(q.Captures) > 0) {
		return 0
	}
	return in(p.Limit(p.Stand.Speeds[0].Period, q.Clock.Capture))
}

func pictureProducts(q spin.Query) string {
	text := ""
	for i, p := range q.Products {
		if i > 0 {
			text += "; "
		}
		if p.Stand.Name != "" {
			text += p.Stand.Name + ": "
		}
		for k, v := range p.Stand.Speeds {
			if k > 0 {
				text += " or "
			}
			text += v.Period.Decimal(4) + " s"
		}
		text += " a turn, " + faces(p.Symmetry)
	}
	return text
}

// maxDots is how many dots a curve can have and still be read. Beyond it, near
// misses get none, and then loops that close but are not on the list.
const maxDots = 120

func pictureCurve(d spinreport.Data, c spin.Curve, m measure) spinplot.Curve {
	out := spinplot.Curve{Name: curveName(d.Query, c)}
	var closing, near []spinplot.Dot
	for _, p := range c.Points {
		dot := spinplot.Dot{Screen: p.Screen, Off: m.of(p.Off, p.Share), Good: p.Closes}
		out.Screen, out.Off = append(out.Screen, p.Screen), append(out.Off, dot.Off)
		switch {
		case slices.ContainsFunc(d.Answer.Loops, func(l spin.Loop) bool { return onCurve(l, c) && l.Captured == p.Frames }):
		case p.Closes:
			closing = append(closing, dot)
		case p.Best && p.Share < nearMiss:
			near = append(near, dot)
		}
	}
	for _, l := range d.Answer.Loops {
		if s := l.Furthest(); onCurve(l, c) {
			off := m.of(s.Error.Abs().Float(), s.Error.Abs().Quo(s.Bound).Float())
			out.Dots = append(out.Dots, spinplot.Dot{Screen: l.OnScreen().Float(), Off: off, Good: l.Closes(), Label: fmt.Sprint(l.Captured)})
		}
	}
	for _, more := range [][]spinplot.Dot{closing, near} {
		if len(out.Dots)+len(more) <= maxDots {
			out.Dots = append(out.Dots, more...)
		}
	}
	return out
}

// nearMiss is up to how many bounds off a loop still gets a dot of its own.
const nearMiss = 50

// onCurve tells whether a loop is of a curve's capture rate and speeds.
func onCurve(l spin.Loop, c spin.Curve) bool {
	if !l.Clock.Capture.Equal(c.Clock.Capture) {
		return false
	}
	for i, s := range l.Seams {
		if s.Speed.Name != c.Speeds[i].Name {
			return false
		}
	}
	return true
}

func curveName(q spin.Query, c spin.Curve) string {
	text := "captured at " + c.Clock.Capture.Decimal(3)
	for i, v := range c.Speeds {
		if len(q.Products[i].Stand.Speeds) > 1 {
			text += fmt.Sprintf(", %s s a turn", v.Period.Decimal(4))
		}
	}
	return text
}

// phasePoints is how many points a smooth phase is drawn with, a cycle.
const phasePoints = 60

// carriagePhase goes out and home the cycles of the loop: as the axis of the plan
// that does so, or without one by a plain cosine, since no law moves the ends.
func carriagePhase(l spin.Loop, p *plan.Plan) spinplot.Phase {
	cycles := int(exact.Int(l.Captured).Quo(l.Cycle).Whole())
	out := spinplot.Phase{Name: "carriage", Axis: "near end 0, far end 1", End: "home"}
	share := func(u float64) float64 { return (1 - math.Cos(2*math.Pi*u*float64(cycles))) / 2 }
	if a := carriageOf(p); a != nil {
		out.Name = a.Rig.Name
		near, far := a.Move.Does.(move.Ended).Ends()
		from, to := near.Float(), far.Float()
		share = func(u float64) float64 { return (a.Track.At(u*p.Period()).Pos - from) / (to - from) }
	}
	n := phasePoints * cycles
	for i := range n + 1 {
		u := float64(i) / float64(n)
		out.Shape = append(out.Shape, spinplot.Point{Screen: u * l.OnScreen().Float(), Share: share(u)})
	}
	return out
}

// carriageOf returns the first axis that goes there and back, and nil where none
// does.
func carriageOf(p *plan.Plan) *plan.Axis {
	if p == nil {
		return nil
	}
	for i := range p.Axes {
		if _, goes := p.Axes[i].Move.Does.(move.Ended); goes {
			return &p.Axes[i]
		}
	}
	return nil
}

// maxTeeth is how many faces are drawn apart: more are a smear.
const maxTeeth = 400

// productPhase is how far the product has turned from one alike face to the
// next.
func productPhase(l spin.Loop, s spin.Seam) spinplot.Phase {
	out := spinplot.Phase{Name: "product", Axis: "a face in front 0, the next 1", End: phaseEnd(s)}
	if s.Product.Stand.Name != "" {
		out.Name = s.Product.Stand.Name
	}
	total, faces := l.OnScreen().Float(), s.Turns.Float()*float64(s.Product.Symmetry)
	for k := 0; float64(k) < faces && k < maxTeeth; k++ {
		out.Shape = append(out.Shape, spinplot.Point{Screen: total * float64(k) / faces},
			spinplot.Point{Screen: total * min(1, float64(k+1)/faces), Share: min(1, faces-float64(k))})
	}
	return out
}

func phaseEnd(s spin.Seam) string {
	switch s.Error.Sign() {
	case 0:
		return "on its match"
	case -1:
		return spinreport.Angle(s.Error.Abs()) + " short of its match"
	}
	return spinreport.Angle(s.Error) + " past its match"
}

func faces(symmetry int64) string {
	if symmetry == 1 {
		return "no two faces alike"
	}
	return fmt.Sprintf("%d alike faces", symmetry)
}

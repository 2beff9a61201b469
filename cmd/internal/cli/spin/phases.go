package spin

import (
	"fmt"
	"math"

	"seamrail/export/report/spinreport"
	"seamrail/motion/exact"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/spin"
	"seamrail/plot/spinplot"
)

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

package lookahead

import "math"

// Shape is what the planner makes of a move whatever its pace.
type Shape struct {
	Length float64 // mm along the path; 0 for a dwell or a move of no step
	Acc    float64 // mm/s2
	Cap    float64 // greatest nominal speed, mm/s
	// Enter is the greatest speed at which the move may begin, by the change of
	// direction from the one before: 0 at a reversal, after a dwell and at the
	// beginning; +Inf straight on.
	Enter   float64
	Slowest float64 // mm/s below which it does not run; 0 = none
}

// Shapes returns the shape of each move.
func (p *Planner) Shapes(moves []Move) []Shape {
	blocks := p.plan(moves)
	out := make([]Shape, len(blocks))
	for i := range blocks {
		b := &blocks[i]
		out[i] = Shape{Length: b.length, Acc: b.acc, Cap: b.cap, Enter: math.Sqrt(b.corner)}
		if b.events > 0 {
			out[i].Slowest = p.Slowest * b.length / b.events
		}
	}
	return out
}

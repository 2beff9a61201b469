package firmware

import "math"

// Shape is what the planner makes of a move whatever its pace.
type Shape struct {
	Length float64 // mm along the path; 0 where nothing steps
	Acc    float64 // mm/s2
	Cap    float64 // greatest nominal speed, mm/s
	// Enter is the greatest speed at which the move may begin, by the change of
	// direction from the one before, mm/s: 0 at a reversal, after a rest and at
	// the beginning; +Inf straight on.
	Enter float64
}

// Shapes returns the shapes of moves by so many steps each; one of no steps is a
// rest.
func (b *Board) Shapes(moves []Counts) []Shape {
	out := make([]Shape, len(moves))
	var none Counts
	rapid := Pace{Rapid: true}
	last, rests := Block{}, true
	for i := range moves {
		k, moved := b.Block(&none, &moves[i], rapid)
		if !moved {
			rests = true
			continue
		}
		s := &out[i]
		s.Length = float64(k.length)
		s.Acc = float64(k.accel) / (secondsMinute * secondsMinute)
		s.Cap = float64(k.nominal) / secondsMinute
		if !rests {
			s.Enter = enter(b.corner2(&last.unit, &k.unit))
		}
		last, rests = k, false
	}
	return out
}

func enter(corner2 float32) float64 {
	if corner2 == math.MaxFloat32 {
		return math.Inf(1)
	}
	return math.Sqrt(float64(corner2)) / secondsMinute
}

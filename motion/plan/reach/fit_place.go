package reach

import (
	"fmt"
	"math"

	"seamrail/motion/base/fault"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// placeShifts are how many times as far in as is missing a move is tried: what leaves
// the travel may depend on where it is cut to frames.
var placeShifts = []float64{1, 1.25, 2}

// placeFit offers the same move further in, where it leaves the travel at one end.
func placeFit(s shot.Shot, r rig.Rig, i int, broken []plan.Breach) []Fit {
	m, ok := s.Axes[i].Does.(move.Shifter)
	if !ok {
		return nil
	}
	for _, times := range placeShifts {
		by := inward(broken) * times
		if by == 0 {
			return nil
		}
		c, name := m.Shifted(by), s.Axes[i].Name
		fits := tried(r, Fit{Axis: name, Kind: "place", Shot: withMove(s, i, c.Move), Edits: editsOf(name, c.Edits), Text: c.Words + ", in this loop"})
		if len(fits) > 0 {
			return fits
		}
	}
	return nil
}

// inward is by how much, in units, rounded up to what a person sets, a move has to go
// to keep the travel, also where it takes up its play; 0 where it leaves it at neither end, or at
// both.
func inward(broken []plan.Breach) float64 {
	var low, high float64
	for _, b := range broken {
		if b.Quantity == plan.Position {
			low, high = math.Max(low, b.Bound-b.Value), math.Max(high, b.Value-b.Bound)
		}
	}
	if low > 0 && high > 0 {
		return 0
	}
	return (math.Ceil(low/travelGrain) - math.Ceil(high/travelGrain)) * travelGrain
}

// slowerFit offers a longer loop in which keys, whose times are their own, come as much
// later.
func slowerFit(s shot.Shot, r rig.Rig) (Fit, bool) {
	keyed := false
	for _, m := range s.Axes {
		_, own := m.Does.(move.Scheduled)
		keyed = keyed || own
	}
	if !keyed {
		return Fit{}, false
	}
	loop, ok := shortest(s, func(l clock.Loop) bool {
		changed, _ := Slower(s, l)
		return inside(changed, r)
	})
	if !ok || loop.Screen <= s.Loop.Screen {
		return Fit{}, false
	}
	in := func(l clock.Loop) (string, []fault.Edit) {
		_, edits := Slower(s, l)
		times := exact.New(l.Screen, s.Loop.Screen).Decimal(4)
		return fmt.Sprintf("%s, with every time of the keys %s times as late and every speed of theirs as much less", LoopWords(l), times), edits
	}
	changed, _ := Slower(s, loop)
	return first(tried(r, Fit{Kind: "slower", Shot: changed, In: in}.in(loop)))
}

// Slower is the shot in another loop, with the times of its keys in proportion.
func Slower(s shot.Shot, l clock.Loop) (shot.Shot, []fault.Edit) {
	times := exact.New(l.Screen, s.Loop.Screen)
	edits := []fault.Edit{loopEdit(l)}
	out := withLoop(s, l)
	for i, m := range s.Axes {
		if own, ok := m.Does.(move.Scheduled); ok {
			c := own.Slowed(times, s.Clock)
			out, edits = withMove(out, i, c.Move), append(edits, editsOf(m.Name, c.Edits)...)
		}
	}
	return out, edits
}

package reach

import (
	"fmt"
	"math"
	"strings"

	"seamrail/motion/clock"
	"seamrail/motion/exact"
	"seamrail/motion/plan"
	"seamrail/motion/rig"
	"seamrail/motion/shot"
	"seamrail/motion/unit"
)

// placeShifts are how many times as far in as is missing a move is tried: what leaves
// the travel may depend on where it is cut to frames.
var placeShifts = []float64{1, 1.25, 2}

// placeFit offers the same move further in, where it leaves the travel at one end.
func placeFit(s shot.Shot, r rig.Rig, i int, broken []plan.Breach) []Fit {
	for _, times := range placeShifts {
		by := inward(broken) * times
		m, edits, words := shifted(s.Axes[i], by)
		if by == 0 || len(edits) == 0 {
			return nil
		}
		fits := tried(r, Fit{Axis: m.Name, Kind: "place", Shot: withMove(s, i, m), Edits: edits, Text: words + ", in this loop"})
		if len(fits) > 0 {
			return fits
		}
	}
	return nil
}

// inward is by how much, in units, rounded up to what a person sets, a move has to go
// to keep the travel; 0 where it leaves it at neither end, or at both.
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

// shifted is a move somewhere else, with the edits that bring it there, none where its
// places are not its own.
func shifted(m shot.AxisMove, by float64) (shot.AxisMove, []Edit, string) {
	var edits []Edit
	move := func(key string, q unit.Quantity) unit.Quantity {
		text := unit.Format(math.Round((q.Float()+by)/placeGrain)*placeGrain, q.Dim)
		edits = append(edits, at(m, key, text))
		return asWritten(text, q.Dim)
	}
	switch m.Move {
	case shot.ThereAndBack, shot.Through:
		m.From, m.To = move("from", m.From), move("to", m.To)
		return m, edits, fmt.Sprintf("from = %q and to = %q", edits[0].Text, edits[1].Text)
	case shot.Keys:
		keys := make([]shot.Key, len(m.Keys))
		for k := range keys {
			keys[k] = m.Keys[k]
			keys[k].Pos = move(fmt.Sprintf("keys[%d].pos", k+1), keys[k].Pos)
		}
		m.Keys = keys
		sign := "more"
		if by < 0 {
			sign = "less"
		}
		return m, edits, fmt.Sprintf("every pos of its keys %s %s", unit.Format(math.Abs(by), m.Keys[0].Pos.Dim), sign)
	}
	return m, nil, ""
}

// placeGrain is what a place is written to, in mm or degrees.
const placeGrain = 1e-4

// slowerFit offers a longer loop in which keys, whose times are their own, come as much
// later.
func slowerFit(s shot.Shot, r rig.Rig) (Fit, bool) {
	keyed := false
	for _, m := range s.Axes {
		keyed = keyed || m.Move == shot.Keys
	}
	if !keyed {
		return Fit{}, false
	}
	loop, ok := shortest(s, func(l clock.Loop) bool {
		changed, _ := slower(s, l)
		return inside(changed, r)
	})
	if !ok || loop.Screen <= s.Loop.Screen {
		return Fit{}, false
	}
	changed, edits := slower(s, loop)
	times := exact.New(loop.Screen, s.Loop.Screen)
	return first(tried(r, Fit{Kind: "slower", Shot: changed, Edits: edits, Text: fmt.Sprintf(
		"a loop of %d frames (%s s on screen), with every time of the keys %s times as late and every speed of theirs as much less",
		loop.Screen, loop.OnScreen().Decimal(3), times.Decimal(4))}))
}

// keyDecimals is how many decimals of a frame the time of a key is written to.
const keyDecimals = 4

// slower is the shot in a longer loop, with the times of its keys in proportion.
func slower(s shot.Shot, l clock.Loop) (shot.Shot, []Edit) {
	times := exact.New(l.Screen, s.Loop.Screen)
	edits := []Edit{loopEdit(l)}
	out := withLoop(s, l)
	for i, m := range s.Axes {
		if m.Move != shot.Keys {
			continue
		}
		keys := make([]shot.Key, len(m.Keys))
		for k := range keys {
			keys[k] = m.Keys[k]
			path := fmt.Sprintf("keys[%d].", k+1)
			later := func(key string, real exact.Rat) exact.Rat {
				if real.Sign() == 0 {
					return real
				}
				frame := s.Clock.Retime.Quo(s.Clock.Playback) // real s
				frames := real.Mul(times).Quo(frame).Decimal(keyDecimals)
				edits = append(edits, at(m, path+key, frames+" frames"))
				return asWritten(frames+" frames", unit.Frames).Value.Mul(frame)
			}
			keys[k].At, keys[k].Hold = later("at", keys[k].At), later("hold", keys[k].Hold)
			if v := keys[k].Speed; v != nil && v.Value.Sign() != 0 {
				less := *v
				less.Value = v.Value.Quo(times)
				text := unit.Format(less.Value.Mul(s.Clock.Retime).Float(), v.Dim)
				edits = append(edits, at(m, path+"speed", text))
				keys[k].Speed = &less
			}
		}
		m.Keys = keys
		out = withMove(out, i, m)
	}
	return out, edits
}

// bothFit offers a longer loop of the same moves further in, where neither does alone.
func bothFit(s shot.Shot, r rig.Rig, broken map[string][]plan.Breach) []Fit {
	changed := s
	var edits []Edit
	var words []string
	for i, m := range s.Axes {
		by := inward(broken[m.Name])
		moved, more, text := shifted(m, by)
		if by == 0 || len(more) == 0 {
			continue
		}
		changed = withMove(changed, i, moved)
		edits = append(edits, more...)
		words = append(words, "axis "+m.Name+" with "+text)
	}
	if len(edits) == 0 {
		return nil
	}
	for _, whole := range []func(shot.Shot, rig.Rig) (Fit, bool){loopFit, slowerFit} {
		if f, ok := whole(changed, r); ok {
			f.Kind, f.Edits = "both", append(edits, f.Edits...)
			f.Text += ", and " + strings.Join(words, ", ")
			return []Fit{f}
		}
	}
	return nil
}

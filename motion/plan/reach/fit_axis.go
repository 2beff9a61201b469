package reach

import (
	"fmt"
	"math"
	"seamrail/motion/base/fault"

	"seamrail/motion/base/list"
	"seamrail/motion/base/source"
	"seamrail/motion/law"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// travelGrain is what a suggested end is rounded down to, in mm or degrees: a
// person sets a tenth, and rounding down keeps it inside the limit.
const travelGrain = 0.1

// shareOf returns the share of the motion at which the worst breach is none:
// speed, acceleration and jerk are all in proportion to the way.
func shareOf(breaches []plan.Breach) float64 {
	share := 1.0
	for _, b := range breaches {
		if b.Quantity != plan.Position {
			share = math.Min(share, b.Bound/b.Value)
		}
	}
	return share
}

// editsOf are the edits of a change of an axis' move.
func editsOf(axis string, edits []move.Edit) []fault.Edit {
	return list.Map(edits, func(e move.Edit) fault.Edit {
		return fault.Edit{Path: source.Join("axis", axis) + "." + e.Key, Text: e.Text}
	})
}

// travelFit offers the move less far, or at a lesser rate.
func travelFit(s shot.Shot, r rig.Rig, i int, m move.Shrinker, breaches []plan.Breach) []Fit {
	axis, _ := r.Axis(s.Axes[i].Name)
	low, high := room(axis, breaches)
	for _, c := range m.Shrunk(shareOf(breaches), low, high, s.Clock) {
		fits := tried(r, Fit{Axis: axis.Name, Kind: "travel", Shot: withMove(s, i, c.Move), Edits: editsOf(axis.Name, c.Edits), Text: c.Words})
		if len(fits) > 0 {
			return fits
		}
	}
	return nil
}

// room is where the places of a move may be, by what it breaks.
func room(axis rig.Axis, breaches []plan.Breach) (low, high float64) {
	low, high = math.Inf(-1), math.Inf(1)
	if !axis.Endless {
		low, high = axis.Min, axis.Max
	}
	for _, b := range breaches {
		switch {
		case b.Phase != plan.TakingUp:
		case b.Value < b.Bound:
			low = axis.Min + plan.Beyond(axis)
		default:
			high = axis.Max - plan.Beyond(axis)
		}
	}
	return low, high
}

func lawFits(s shot.Shot, r rig.Rig, i int, m move.Relawed) []Fit {
	var out []Fit
	if m.Tuned() {
		return nil
	}
	for _, l := range law.All() {
		var edits []move.Edit
		for _, key := range m.LawKeys() {
			edits = append(edits, move.Edit{Key: key, Text: l.Name()})
		}
		f := Fit{Axis: s.Axes[i].Name, Kind: "law", Shot: withMove(s, i, m.WithLaws(l, l)),
			Text: fmt.Sprintf("law = %q at this travel and loop", l.Name()), Edits: editsOf(s.Axes[i].Name, edits)}
		out = append(out, tried(r, f)...)
	}
	return out
}

func withMove(s shot.Shot, i int, m move.Move) shot.Shot {
	axes := make([]shot.AxisMove, len(s.Axes))
	copy(axes, s.Axes)
	axes[i].Does = m
	s.Axes = axes
	return s
}

package reach

import (
	"fmt"
	"math"

	"seamrail/motion/exact"
	"seamrail/motion/law"
	"seamrail/motion/plan"
	"seamrail/motion/rig"
	"seamrail/motion/shot"
	"seamrail/motion/unit"
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

// mostParts is the finest part of a turn that is offered: few products have
// more like faces than a clock has minutes.
const mostParts = 60

// turnFit offers the largest whole part of a turn that fits, since only whole
// parts close the loop of a product with as many like faces.
func turnFit(s shot.Shot, r rig.Rig, i int, breaches []plan.Breach) []Fit {
	m := s.Axes[i]
	parts := math.Ceil(1 / (math.Abs(m.Turns.Float()) * shareOf(breaches)))
	if !(parts <= mostParts) {
		return nil
	}
	m.Turns = exact.New(int64(m.Turns.Sign()), int64(parts))
	if m.Turns.Abs().Equal(s.Axes[i].Turns.Abs()) {
		return nil
	}
	changed := withMove(s, i, m)
	if !verified(changed, r, m.Name) {
		return nil
	}
	return []Fit{{Axis: m.Name, Kind: "travel", Shot: changed,
		Text: fmt.Sprintf("turns = %q in this loop", m.Turns)}}
}

func travelFit(s shot.Shot, r rig.Rig, i int, breaches []plan.Breach) []Fit {
	m := s.Axes[i]
	from, to := m.From.Value.Float(), m.To.Value.Float()
	axis, _ := r.Axis(m.Name)
	end := from + (to-from)*shareOf(breaches)
	if !axis.Endless {
		end = math.Min(math.Max(end, axis.Min), axis.Max)
	}
	reach := math.Floor(math.Abs(end-from)/travelGrain) * travelGrain
	if reach < travelGrain {
		return nil
	}
	end = math.Round((from+math.Copysign(reach, to-from))/travelGrain) * travelGrain
	changed := withMove(s, i, m.WithTo(end))
	if !verified(changed, r, m.Name) {
		return nil
	}
	return []Fit{{Axis: m.Name, Kind: "travel", Shot: changed, Text: fmt.Sprintf("to = %q, a travel of %s, in this loop",
		unit.Format(end, m.To.Dim), unit.Format(reach, m.To.Dim))}}
}

func lawFits(s shot.Shot, r rig.Rig, i int) []Fit {
	var out []Fit
	for _, l := range law.All() {
		changed := withMove(s, i, s.Axes[i].WithLaw(l))
		if verified(changed, r, s.Axes[i].Name) {
			out = append(out, Fit{Axis: s.Axes[i].Name, Kind: "law", Shot: changed,
				Text: fmt.Sprintf("law = %q at this travel and loop", l.Name())})
		}
	}
	return out
}

func withMove(s shot.Shot, i int, m shot.AxisMove) shot.Shot {
	axes := make([]shot.AxisMove, len(s.Axes))
	copy(axes, s.Axes)
	axes[i] = m
	s.Axes = axes
	return s
}

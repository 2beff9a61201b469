package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/unit"
	"seamrail/motion/law"
	"seamrail/motion/move"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// Set is what is set on a rig that is started by hand, and what then follows.
type Set struct {
	Way, Pause exact.Rat // s, as its buttons say; Pause is 0 where each way has a press of its own

	WayReal  exact.Rat // s that a way really takes, as far as is known
	RestFar  exact.Rat // s at the far end
	RestNear exact.Rat // s at the near end, until the loop is over: what the rig rests there by itself, and Spare
	Spare    exact.Rat // s that the loop is longer than the rig's own round
	Spread   exact.Rat // s, standard uncertainty of a round, as far as is known
	Pressed  bool      // each way has a press of its own

	own law.Law
}

// Round is the real seconds of the rig's own round: both ways and the rests that it makes
// by itself, or at which a hand presses for the way back.
func (s Set) Round() exact.Rat { return s.WayReal.Add(s.WayReal).Add(s.RestFar).Add(s.Rest()) }

// Rest is the real seconds that it rests at the near end before it sets out by itself.
func (s Set) Rest() exact.Rat { return s.RestNear.Sub(s.Spare) }

// grain is the real seconds from one loop that the clock can have to the next: a frame
// of the timeline, or as many as make whole captured frames.
func grain(c clock.Clock) exact.Rat {
	return exact.Int(c.PerScreen().Den().Int64()).Mul(c.Retime).Quo(c.Playback)
}

// Offer is a loop that the buttons of a rig offer, with a pair of times.
type Offer struct {
	Set  Set
	Loop clock.Loop
}

// rests tells whether it rests as long as asked, to a frame.
func (o Offer) rests(w move.Ways) bool {
	step := grain(o.Loop.Clock)
	return o.Set.RestFar.Sub(w.DwellFar).Abs().Less(step) && o.Set.Rest().Sub(w.DwellNear).Abs().Less(step)
}

// offerOf is the loop that is just longer than the rig's round with a way and a rest. A
// way that is shorter than its ramps, or a loop beyond counting, is no offer.
func offerOf(c clock.Clock, b rig.Buttons, way, rest, near exact.Rat) (Offer, bool) {
	s := Set{Way: way, WayReal: way.Mul(b.Pace), RestFar: rest, Pressed: b.Trips.ByHand}
	if !b.Trips.ByHand {
		s.Pause = rest.Quo(b.Pace)
	}
	own, err := b.Ramp.Of(s.WayReal)
	if err != nil { // the way is shorter than its ramps
		return Offer{}, false
	}
	s.own = own
	round := s.WayReal.Add(s.WayReal).Add(rest).Add(near)
	step := grain(c)
	n := round.Quo(step).Ceil().Mul(step).Quo(c.Retime).Mul(c.Playback)
	frames, ok := n.Int64()
	if !ok || frames < 1 {
		return Offer{}, false
	}
	l, err := c.LoopFrames(frames)
	if err != nil {
		return Offer{}, false
	}
	s.Spare = l.Real().Sub(round)
	s.RestNear = near.Add(s.Spare)
	s.Spread = spreadOf(b, s.Round())
	return Offer{s, l}, true
}

// spreadOf is the standard uncertainty of a round: of its clock, and of the presses where
// each way has one, of which the two ends of the far rest are one press and one lag each.
func spreadOf(b rig.Buttons, round exact.Rat) exact.Rat {
	v := b.Spread.Mul(round).Float()
	sum := v * v
	if b.Trips.ByHand {
		press, lag := b.Press.Float(), b.LagSpread.Float()
		sum += 2 * (press*press + lag*lag)
	}
	return exact.Approx(math.Sqrt(sum), 1_000_000)
}

// rests are the rests at the far end that can be had nearest to one that is asked for, in
// real seconds.
func rests(b rig.Buttons, asked exact.Rat) []exact.Rat {
	if b.Trips.ByHand {
		return []exact.Rat{asked}
	}
	var out []exact.Rat
	for _, p := range b.Pauses.Nearest(asked.Quo(b.Pace)) {
		out = append(out, p.Mul(b.Pace))
	}
	return out
}

// nearOf is the rest at the near end that goes with one at the far end.
func nearOf(b rig.Buttons, rest, asked exact.Rat) exact.Rat {
	if b.Trips.ByHand {
		return asked
	}
	return rest
}

// setFor is what to set for a move of a shot. The fault names the loops that could be set
// instead.
func setFor(s shot.Shot, b rig.Buttons, m shot.AxisMove) (*Set, *fault.Fault) {
	w := waysOf(m)
	near := offersNear(s.Loop, b, w.DwellFar, w.DwellNear)
	for _, o := range near {
		if o.Loop.Captured == s.Loop.Captured && o.rests(w) {
			return &o.Set, nil
		}
	}
	f := placed(s, m)
	way := w.WayOut(s.Loop.Real())
	f.Quantity, f.Value = "a way", secs(way)
	f.Bound = "is none that its buttons offer for this loop, " + b.Times.Words(unit.Time)
	if !b.Trips.ByHand {
		f.Bound += ", with rests of " + b.Pauses.Words(unit.Time)
	}
	f.Fit = offerWords(near, s, b, w)
	return nil, &f
}

// maxNear is how many loops are told to either side.
const maxNear = 2

// offersNear are the offers next to a loop with rests nearest to those asked for: that of
// the same length, where there is one, and some shorter and longer.
func offersNear(l clock.Loop, b rig.Buttons, far, near exact.Rat) []Offer {
	var out []Offer
	for _, rest := range rests(b, far) {
		rest2 := nearOf(b, rest, near)
		ideal := l.Real().Sub(rest).Sub(rest2).Quo(exact.Int(2)).Quo(b.Pace)
		out = append(out, beside(l, b, ideal, rest, rest2)...)
	}
	return out
}

// beside are the offers whose ways are next to an ideal one, at most maxNear to either
// side.
func beside(l clock.Loop, b rig.Buttons, ideal, rest, near exact.Rat) []Offer {
	var below, above []Offer
	for way := range b.Times.All() {
		o, ok := offerOf(l.Clock, b, way, rest, near)
		if !ok {
			continue
		}
		if ideal.Less(way) {
			above = append(above, o)
		} else {
			below = append(below, o)
		}
	}
	by := func(a, b Offer) int { return a.Set.Way.Cmp(b.Set.Way) }
	slices.SortFunc(below, by)
	slices.SortFunc(above, by)
	return slices.Concat(below[max(0, len(below)-maxNear):], above[:min(maxNear, len(above))])
}

// offerWords say which loops could be set instead, those with the rests asked for first.
func offerWords(all []Offer, s shot.Shot, b rig.Buttons, w move.Ways) string {
	if len(all) == 0 {
		return "no loop near has one: its ramps take " + secs(b.Ramp.Least()) + " of each way"
	}
	away := func(o Offer) int64 {
		d := o.Loop.Screen - s.Loop.Screen
		if !o.rests(w) {
			return math.MaxInt64
		}
		return max(d, -d)
	}
	slices.SortStableFunc(all, func(a, b Offer) int { return cmp.Compare(away(a), away(b)) })
	words := "nearest: "
	for i, o := range all[:min(len(all), maxNear)] {
		if i > 0 {
			words += ", or "
		}
		words += fmt.Sprintf("clock.loop = \"%d frames\" with a way of %s", o.Loop.Screen, secs(o.Set.Way))
		if !o.rests(w) {
			on := unit.Format(o.Set.RestFar.Quo(s.Loop.Clock.Retime).Float(), unit.Time)
			words += fmt.Sprintf(" and dwell-far and dwell-near = %q", on)
		}
	}
	return words
}

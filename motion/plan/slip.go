package plan

import (
	"cmp"
	"math"
	"slices"

	"seamrail/motion/base/exact"
	"seamrail/motion/law"
	"seamrail/motion/spec/shot"
	"seamrail/motion/turntable/spin"
)

// Slip is what becomes of the seam because the rig's own round is not the loop to the
// instant.
type Slip struct {
	Off    exact.Rat // captured frames by which the loop is longer than the rig's round
	Spread float64   // captured frames, standard uncertainty of that, as far as is known
	Jump   float64   // share of the way by which the seam of the round to keep jumps at the worst, within two uncertainties
	Kick   float64   // the same of the speed, shares of the way a captured frame
}

// looks is at how many durations of a round, from two uncertainties too short to two too
// long, the seam is looked at; what lies between two differs from one of them by less than
// a hundredth of the range.
const looks = 201

// Slip tells it of the round to keep of a take, counted in frames from where the motion
// begins. The rig goes on by itself: after so many rounds it is early or late by so many
// times as much. After its last round it stays; where each way has a press of its own, it
// stays after each.
func (p *Plan) Slip() Slip { return p.SlipOf(Offer{*p.Set, p.Loop}) }

// SlipOf is Slip of another loop, in a take of as many rounds.
func (p *Plan) SlipOf(o Offer) Slip {
	s, rate := o.Set, o.Loop.Clock.Capture
	out := Slip{Off: s.Spare.Mul(rate), Spread: s.Spread.Mul(rate).Float()}
	keep := int(shot.KeptRound(int64(p.Rounds)))
	again := keep+1 < p.Rounds
	if s.Pressed {
		keep, again = 0, false
	}
	reach := spin.Coverage * s.Spread.Float()
	for k := range looks {
		late := reach * (2*float64(k)/(looks-1) - 1)
		jump, kick := s.seam(o.Loop.Real().Float(), keep, again, late)
		out.Jump, out.Kick = math.Max(out.Jump, jump), math.Max(out.Kick, kick/rate.Float())
	}
	return out
}

// seam is how far place and speed of the rig differ, in shares of the way, at both ends of
// a round of a take whose rounds each take so many seconds more than planned.
func (s Set) seam(loop float64, keep int, again bool, late float64) (jump, kick float64) {
	r := s.later(late)
	early := loop - r.lasts()
	from, speed := r.at(float64(keep) * early)
	to, speed2 := r.at(float64(keep+1) * early)
	if !again && early >= 0 {
		to, speed2 = 0, 0
	}
	return math.Abs(to - from), math.Abs(speed2 - speed)
}

// ownRound is a round of the rig in real seconds, as it goes by itself.
type ownRound struct {
	way, far, near float64
	law            law.Law
}

func (r ownRound) lasts() float64 { return 2*r.way + r.far + r.near }

// later is a round that takes so many seconds more than planned: because its clock is slow,
// in all that it does; or because a hand is, at the far end.
func (s Set) later(late float64) ownRound {
	r := ownRound{s.WayReal.Float(), s.RestFar.Float(), s.Rest().Float(), s.own}
	if s.Pressed {
		r.far = math.Max(0, r.far+late) // nobody presses before it is there
		return r
	}
	slow := 1 + late/r.lasts()
	r.way, r.far, r.near = r.way*slow, r.far*slow, r.near*slow
	return r
}

// at is where the rig is, as a share of the way from the near end, and how fast a second,
// so many seconds after it has set out, round after round.
func (r ownRound) at(sec float64) (place, speed float64) {
	sec = math.Mod(math.Mod(sec, r.lasts())+r.lasts(), r.lasts())
	switch {
	case sec < r.way:
		q := r.law.At(sec / r.way)
		return q.S, q.V / r.way
	case sec < r.way+r.far:
		return 1, 0
	case sec < 2*r.way+r.far:
		q := r.law.At((sec - r.way - r.far) / r.way)
		return 1 - q.S, -q.V / r.way
	}
	return 0, 0
}

// Offers are the loops next to that of the plan that the rig's buttons offer, with rests
// as long, at each capture rate of the camera; first those that close best.
func (p *Plan) Offers() []Offer {
	if p.Set == nil {
		return nil
	}
	var out []Offer
	for _, rate := range append([]exact.Rat{p.Loop.Clock.Capture}, p.Captures...) {
		c := p.Loop.Clock
		c.Retime = c.Retime.Mul(c.Capture).Quo(rate)
		c.Capture = rate
		l, err := c.LoopFrames(p.Loop.Screen)
		if err != nil {
			continue
		}
		out = append(out, offersNear(l, p.Rig.Controller.Buttons, p.Set.RestFar, p.Set.Rest())...)
	}
	slices.SortStableFunc(out, func(a, b Offer) int { return cmp.Compare(p.SlipOf(a).worst(), p.SlipOf(b).worst()) })
	return out
}

// Slower are the loops of the rig's longer ways, with rests as long, shortest first.
func (p *Plan) Slower() []Offer {
	var out []Offer
	for way := range p.Rig.Controller.Buttons.Times.All() {
		o, ok := offerOf(p.Loop.Clock, p.Rig.Controller.Buttons, way, p.Set.RestFar, p.Set.Rest())
		if ok && p.Set.Way.Less(way) {
			out = append(out, o)
		}
	}
	slices.SortFunc(out, func(a, b Offer) int { return a.Set.Way.Cmp(b.Set.Way) })
	return out
}

// worst is by how much the seam is off, for a rank: the jump at the worst, or where there
// is none the share of a frame that the loop is longer.
func (s Slip) worst() float64 { return s.Jump + s.Off.Float()*1e-9 }

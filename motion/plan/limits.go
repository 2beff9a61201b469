package plan

import (
	"math"
	"slices"

	"seamrail/motion/track"
)

// limitSlack is how far past a limit a computed peak may lie before it counts,
// as a share of the limit. Peaks are closed forms good to a few parts in 1e15;
// a billionth lets a move planned exactly at a limit through and is far below
// what any motor or reader could notice.
const limitSlack = 1e-9

// Quantities an axis is limited in.
const (
	Position     = "position"
	Speed        = "speed"
	Acceleration = "acceleration"
	Jerk         = "jerk"
	StepRate     = "step rate"
)

// limit is a bound of an axis and the peak that it is held against.
type limit struct {
	quantity string
	peak     track.Peak
	bound    float64
	scale    float64 // what both are multiplied by to be told
	beyond   func(value, bound float64) bool
}

func (l limit) broken() bool { return l.beyond(l.peak.Value, l.bound) }

func broken(all []limit) []limit {
	return slices.DeleteFunc(all, func(l limit) bool { return !l.broken() })
}

func over(value, bound float64) bool { return math.Abs(value) > bound*(1+limitSlack) }

// loopLimits are the limits of an axis over all rounds of the take.
func (c course) loopLimits(a Axis) []limit {
	e := a.Extremes
	e.Min, e.Max = c.whole(e.Min, a, -1), c.whole(e.Max, a, 1)
	return append(travel(a, e.Min, e.Max), c.limits(a, e)...)
}

// whole takes an extreme of one round to the extreme of all rounds of the
// take, on the side of sign.
func (c course) whole(peak track.Peak, a Axis, sign float64) track.Peak {
	if gained := c.carried(a); gained*sign > 0 {
		peak.Value += gained
		peak.Time += c.period() * float64(c.rounds-1)
	}
	return peak
}

// rampLimits are the limits of an axis over a ramp; none where there is no ramp, or
// where the loop asks too much of the axis at the seam itself: what a ramp to there
// breaks then is no fault of its own.
func (c course) rampLimits(a Axis, r *Ramp) []limit {
	if r == nil || over(r.end.Vel, c.top(a)) || over(r.end.Acc, a.Rig.MaxAcc) {
		return nil
	}
	start := -r.Length()
	if r.out {
		start = c.period()
	}
	lo, hi, speed, acc, jerk := r.peaks()
	at := func(v float64) track.Peak { return track.Peak{Value: v, Time: start} }
	carried := c.carriedBy(r, a)
	return append(travel(a, at(lo+carried), at(hi+carried)),
		c.limits(a, track.Extremes{Speed: at(speed), Acc: at(acc), Jerk: at(jerk)})...)
}

// limits are those of an axis beside its travel.
func (c course) limits(a Axis, e track.Extremes) []limit {
	list := []limit{
		{Speed, e.Speed, a.Rig.MaxSpeed, 1, over},
		{Acceleration, e.Acc, a.Rig.MaxAcc, 1, over},
	}
	if a.Rig.MaxJerk > 0 {
		list = append(list, limit{Jerk, e.Jerk, a.Rig.MaxJerk, 1, over})
	}
	if rate := c.controller.StepRate; rate > 0 {
		steps := a.Rig.StepsPerUnit.Float()
		list = append(list, limit{StepRate, e.Speed, rate / steps, steps, over})
	}
	return list
}

// travelSlack is how far, in units, past an end of the travel does not count.
func travelSlack(a Axis) float64 { return limitSlack * math.Max(1, a.Rig.Max-a.Rig.Min) }

// travel are the ends of an axis' travel; an endless one has none.
func travel(a Axis, lo, hi track.Peak) []limit {
	if a.Rig.Endless {
		return nil
	}
	slack := travelSlack(a)
	return []limit{
		{Position, lo, a.Rig.Min, 1, func(v, bound float64) bool { return v < bound-slack }},
		{Position, hi, a.Rig.Max, 1, func(v, bound float64) bool { return v > bound+slack }},
	}
}

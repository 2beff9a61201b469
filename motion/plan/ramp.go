package plan

import (
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/list"
	"seamrail/motion/law/mintime"
	"seamrail/motion/track"
)

// Ramp takes an axis from rest to a given position, speed and acceleration, or
// back to rest, off camera. Its velocity is the cubic Hermite curve between
// the two ends (de Boor, A Practical Guide to Splines, chapter IV), so that
// acceleration is continuous at both.
type Ramp struct {
	exact  exact.Rat // s
	length float64   // s
	end    track.State
	out    bool
	quick  *mintime.Move // in place of the Hermite curve, from where it begins
	begin  float64       // units, where the quick move begins
	pace   float64       // s of the ramp in one of the quick move: 1 as planned
}

// newRunUp returns the ramp from rest to end in length seconds.
func newRunUp(end track.State, length exact.Rat) *Ramp {
	return &Ramp{exact: length, length: length.Float(), end: end, pace: 1}
}

// newRunOut returns the ramp from start to rest in length seconds. It is the
// run-up to the mirrored state, played backwards.
func newRunOut(start track.State, length exact.Rat) *Ramp {
	mirrored := track.State{Pos: start.Pos, Vel: -start.Vel, Acc: start.Acc}
	return &Ramp{exact: length, length: length.Float(), end: mirrored, out: true, pace: 1}
}

// Length returns the ramp's duration in seconds.
func (r *Ramp) Length() float64 { return r.length }

// Peak returns the greatest acceleration of the ramp, units/s².
func (r *Ramp) Peak() float64 {
	_, _, _, acc, _ := r.peaks()
	return acc
}

// Exact returns the ramp's duration in exact seconds.
func (r *Ramp) Exact() exact.Rat { return r.exact }

// At returns the state sec seconds after the ramp begins, 0 <= sec <= Length.
func (r *Ramp) At(sec float64) track.State {
	if r.quick != nil {
		pos, vel, acc, jerk := r.quick.At(sec / r.pace)
		return slower(track.State{Pos: r.begin + pos, Vel: vel, Acc: acc, Jerk: jerk}, r.pace)
	}
	if r.out {
		s := r.forward(r.length - sec)
		return track.State{Pos: s.Pos, Vel: -s.Vel, Acc: s.Acc, Jerk: -s.Jerk}
	}
	return r.forward(sec)
}

func (r *Ramp) forward(sec float64) track.State {
	u := math.Min(1, math.Max(0, sec/r.length))
	v, b := r.end.Vel, r.end.Acc*r.length
	cube := u * u * u
	area := v*(0.5-cube+cube*u/2) + b*(cube/3-cube*u/4-1.0/12)
	return track.State{
		Pos:  r.end.Pos - r.length*area,
		Vel:  v*(3-2*u)*u*u + b*(u-1)*u*u,
		Acc:  (6*v*u*(1-u) + b*(3*u-2)*u) / r.length,
		Jerk: (6*v*(1-2*u) + b*(6*u-2)) / (r.length * r.length),
	}
}

// Turn returns the time inside the ramp at which its velocity changes sign,
// and whether there is one. It is the root of the velocity's linear factor.
func (r *Ramp) Turn() (float64, bool) {
	if r.quick != nil {
		return 0, false
	}
	v, b := r.end.Vel, r.end.Acc*r.length
	u := (b - 3*v) / (b - 2*v)
	if !(u > 0 && u < 1) {
		return 0, false
	}
	if r.out {
		u = 1 - u
	}
	return u * r.length, true
}

// Breaks returns the times at which the ramp's formula changes, both ends
// included, and the one at which it turns.
func (r *Ramp) Breaks() []float64 {
	if r.quick != nil {
		return list.Map(r.quick.Breaks(), func(sec float64) float64 { return sec * r.pace })
	}
	if turn, ok := r.Turn(); ok {
		return []float64{0, turn, r.length}
	}
	return []float64{0, r.length}
}

// peaks returns the greatest |speed|, |acceleration| and |jerk| of the ramp
// and the least and greatest position, all exact: roots of the derivatives.
func (r *Ramp) peaks() (lo, hi, speed, acc, jerk float64) {
	if r.quick != nil {
		lo, hi = r.quick.Extent()
		speed, acc, jerk = r.quick.Peaks()
		most := slower(track.State{Vel: speed, Acc: acc, Jerk: jerk}, r.pace)
		return r.begin + lo, r.begin + hi, most.Vel, most.Acc, most.Jerk
	}
	v, b := r.end.Vel, r.end.Acc*r.length
	at := []float64{0, 1}
	for _, u := range []float64{(3*v - b) / (6*v - 3*b), (b - 3*v) / (b - 2*v), (6*v - 2*b) / (6*v - 3*b)} {
		if u > 0 && u < 1 {
			at = append(at, u)
		}
	}
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, u := range at {
		s := r.forward(u * r.length)
		lo, hi = math.Min(lo, s.Pos), math.Max(hi, s.Pos)
		speed = math.Max(speed, math.Abs(s.Vel))
		acc = math.Max(acc, math.Abs(s.Acc))
		jerk = math.Max(jerk, math.Abs(s.Jerk))
	}
	return lo, hi, speed, acc, jerk
}

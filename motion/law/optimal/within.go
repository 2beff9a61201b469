package optimal

import (
	"fmt"
	"math"

	"seamrail/motion/law"
)

// Aim is which greatest value is to be the least.
type Aim int

// The aims. The smear of a carriage that goes past the picture is its speed.
const (
	MinSpeed Aim = iota
	MinAcceleration
	MinJerk
)

// Limits are what a move has to keep to, in units a second, +Inf where there is
// none. Of Acceleration and Jerk one is finite.
type Limits struct{ Speed, Acceleration, Jerk float64 }

// with returns the limits with the aimed one at q.
func (l Limits) with(a Aim, q float64) Limits {
	*l.of(a) = q
	return l
}

func (l *Limits) of(a Aim) *float64 {
	return [...]*float64{&l.Speed, &l.Acceleration, &l.Jerk}[a]
}

// Held is a law within limits with one greatest value as small as can be.
type Held struct {
	Ramp, JerkShare float64 // of the law: JerkShare 0 is a trapezoidal one
	Value           float64 // of what was aimed at, in its units
	// Bound is what no law within the limits can go below: with it as the limit
	// the quickest move of all takes longer.
	Bound float64
}

// TooShort says that no law within the limits makes the move in its time.
type TooShort struct{ Least float64 } // s

func (e TooShort) Error() string {
	return fmt.Sprintf("the limits ask for %.6g s or more", e.Least)
}

// Within returns the law from rest to rest over a distance in a time in seconds
// that keeps to the limits, and whose aimed greatest value is the least. The
// quickest move under given limits is known (law.Fastest) and takes the longer the
// smaller a limit, so the least value is the one with which it just takes its
// time, and a hair below is the proof. The aimed limit itself counts too.
//
// The error is a TooShort. It panics if the distance or the time is not above 0 or
// acceleration and jerk are both without limit, that aimed at not counted.
func Within(a Aim, distance, seconds float64, l Limits) (Held, error) {
	if !(distance > 0 && seconds > 0) || math.IsInf(distance, 0) || math.IsInf(seconds, 0) {
		panic("optimal: a move of no distance or no time")
	}
	least := lower(a, distance, seconds)
	most := *l.of(a)
	if math.IsInf(most, 1) {
		most = roomy(a, distance, seconds, l)
	}
	if t := quickest(distance, l.with(a, most)).T; t > seconds {
		return Held{}, TooShort{t}
	}
	low, high := min(least, most), most
	for range maxHalvings {
		mid := low + (high-low)/2
		if mid <= low || mid >= high {
			break
		}
		if quickest(distance, l.with(a, mid)).T > seconds {
			low = mid
		} else {
			high = mid
		}
	}
	p := quickest(distance, l.with(a, high))
	h := Held{Ramp: min(p.Ta/p.T, half), Value: high, Bound: low}
	if p.Tj > 0 {
		h.JerkShare = min(p.Tj/p.Ta, half)
	}
	return h, nil
}

// maxHalvings are more than a float has bits.
const maxHalvings = 200

// lower is what no law of the distance and the time goes below, whatever else it
// does: D/T, 4 D/T^2 and 32 D/T^3, less a hair for rounding.
func lower(a Aim, d, t float64) float64 {
	const hair = 1 - 1e-12
	return hair * [...]float64{d / t, 4 * d / (t * t), 32 * d / (t * t * t)}[a]
}

// roomy is a value, doubled from the least, that leaves the move its time, or the
// greatest that is tried.
func roomy(a Aim, d, t float64, l Limits) float64 {
	q := lower(a, d, t)
	const doublings = 100
	for range doublings {
		if q *= 2; quickest(d, l.with(a, q)).T <= t {
			break
		}
	}
	return q
}

func quickest(d float64, l Limits) law.Profile {
	return law.Fastest(d, l.Speed, l.Acceleration, l.Jerk)
}

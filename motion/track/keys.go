package track

import (
	"fmt"

	"seamrail/motion/base/exact"
)

// Key is a place the axis passes at a time.
type Key struct {
	Time  exact.Rat // s, in [0, period)
	Pos   float64   // units
	Speed *float64  // units/s, signed; nil lets the curve choose
	Hold  exact.Rat // s at rest from Time on
	Feel
}

// KeysSpec is a closed curve through keys.
type KeysSpec struct {
	Keys     []Key     // in time order, at least one
	Advance  exact.Rat // units gained each loop
	Monotone bool      // never beyond its keys, at the price of some smoothness
}

// maxKeys bounds the dense system that a smooth curve solves, which grows
// with the cube of it: this many take about a hundredth of a second.
const maxKeys = 256

// Keys returns a track through the keys and back to the first, with position,
// velocity and acceleration continuous everywhere, the seam included.
//
// The smooth curve is the one of least integral of squared jerk; see smooth.
// The monotone curve turns only at keys; see monotone. A hold rests from its
// time on and may run through the seam. What a key feels like is laid over
// either: see Feel.
//
// It fails if there is no key or too many, if keys are out of order, outside
// the loop or not finite, if a hold reaches the next key, or if a stated speed
// cannot be kept.
func Keys(period exact.Rat, s KeysSpec) (*Track, error) {
	if err := checkKeys(period, s); err != nil {
		return nil, err
	}
	r := newKeySpline(period, s)
	if s.Monotone {
		if err := r.monotone(); err != nil {
			return nil, err
		}
	} else if err := r.relax(); err != nil {
		return nil, err
	}
	if err := r.tighten(s.Monotone); err != nil {
		return nil, err
	}
	return layout(period, s.Advance, s.Keys[0].Time, r.legs()), nil
}

func checkKeys(period exact.Rat, s KeysSpec) error {
	if err := checkPeriod(period); err != nil {
		return err
	}
	if n := len(s.Keys); n < 1 || n > maxKeys {
		return fmt.Errorf("%d keys; there must be from 1 to %d", n, maxKeys)
	}
	for i, k := range s.Keys {
		if err := checkKey(period, k); err != nil {
			return fmt.Errorf("key %d: %w", i+1, err)
		}
		if err := k.Feel.check(k, s); err != nil {
			return fmt.Errorf("key %d: %w", i+1, err)
		}
		next, name := s.Keys[0].Time.Add(period), "the first key of the next round"
		if i+1 < len(s.Keys) {
			next, name = s.Keys[i+1].Time, fmt.Sprintf("key %d", i+2)
		}
		if err := checkOrder(k, next, name); err != nil {
			return fmt.Errorf("key %d: %w", i+1, err)
		}
		if err := checkGap(k, s.Keys[(i+1)%len(s.Keys)]); err != nil {
			return fmt.Errorf("key %d: %w", i+1, err)
		}
	}
	return nil
}

func checkKey(period exact.Rat, k Key) error {
	switch {
	case k.Time.Sign() < 0 || period.Less(k.Time):
		return fmt.Errorf("time %s s must be at least 0 s and before the end of the loop at %s s", seconds(k.Time), seconds(period))
	case k.Time.Equal(period):
		return fmt.Errorf("time %s s is the end of the loop, which is its start again; leave the key out, the curve comes back by itself", seconds(k.Time))
	case !finite(k.Pos):
		return fmt.Errorf("position %g must be finite", k.Pos)
	case k.Speed != nil && !finite(*k.Speed):
		return fmt.Errorf("speed %g must be finite", *k.Speed)
	case k.Hold.Sign() < 0:
		return fmt.Errorf("a hold of %s s must be at least 0 s", seconds(k.Hold))
	case k.Hold.Sign() > 0 && k.Speed != nil && *k.Speed != 0:
		return fmt.Errorf("a hold is at rest, so its speed cannot be %g; state the one or the other", *k.Speed)
	}
	return nil
}

func checkOrder(k Key, next exact.Rat, name string) error {
	if !k.Time.Less(next) {
		return fmt.Errorf("time %s s must be before %s at %s s", seconds(k.Time), name, seconds(next))
	}
	if end := k.Time.Add(k.Hold); k.Hold.Sign() > 0 && !end.Less(next) {
		return fmt.Errorf("a hold of %s s lasts until %s s, but %s is at %s s; hold for less than %s s",
			seconds(k.Hold), seconds(end), name, seconds(next), seconds(next.Sub(k.Time)))
	}
	return nil
}

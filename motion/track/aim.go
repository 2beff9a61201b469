package track

import (
	"fmt"
	"math"

	"seamrail/motion/base/exact"
)

// Steepest is the greatest heading of an arc, in degrees. At 80 a degree more
// already takes a rail a tenth of what it has gone so far, and at 90 no rail is
// long enough.
const Steepest = 80

// Aim returns the track of an axis that is a function of where a carriage is,
// such as Sight.Pan: the chain rule gives its speed, acceleration and jerk. It
// is within FineSlack of the function everywhere, and what the carriage jumps
// in, at a turnaround or the seam, it jumps in as well.
//
// It fails if the carriage gains something in each round, or if the function
// is not finite.
func Aim(carriage *Track, f func(pos float64) Jet) (*Track, error) {
	if carriage.advance.Sign() != 0 {
		return nil, fmt.Errorf("what is followed goes on %s further each round, and nothing can stay aimed from there", carriage.advance)
	}
	t, err := Follow(carriage.period, exact.Int(0), aimed{carriage, f}, carriage.Breaks(), FineSlack)
	if err != nil {
		return nil, err
	}
	return t, nil
}

// aimed is a function of a carriage's position as a motion.
type aimed struct {
	carriage *Track
	f        func(pos float64) Jet
}

func (a aimed) At(sec float64) State { return a.of(a.carriage.At(sec)) }

func (a aimed) Before(sec float64) State { return a.of(a.carriage.Before(sec)) }

func (a aimed) of(s State) State { return a.f(s.Pos).Of(s) }

// Check returns what is wrong with a point to look at, or nil.
func (s Sight) Check() error {
	switch {
	case !finite(s.Along) || !finite(s.Away) || !finite(s.Up):
		return fmt.Errorf("the point must be at finite distances")
	case s.Away <= 0:
		return fmt.Errorf("the point is %g mm away from the lens's way; it must be in front of it, above 0 mm", s.Away)
	}
	return nil
}

// Arc returns the track of a rail from which the heading of a point goes there
// and back by the laws of spec, whose ends are headings in degrees. With a pan
// that keeps the point centred, the view goes round it by them.
//
// It fails as ThereAndBack does, if the point is not in front, or if an end is
// further round than a rail can follow.
func Arc(period exact.Rat, s Sight, spec ThereAndBackSpec) (*Track, error) {
	if err := s.Check(); err != nil {
		return nil, err
	}
	for _, end := range []float64{spec.From, spec.To} {
		if !(math.Abs(end) <= Steepest) {
			return nil, fmt.Errorf("an arc to a heading of %g degrees; a straight rail can go round to %d at most, on either side", end, Steepest)
		}
	}
	headings, err := ThereAndBack(period, spec)
	if err != nil {
		return nil, err
	}
	return Aim(headings, s.Arc)
}

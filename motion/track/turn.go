package track

import (
	"fmt"

	"seamrail/motion/base/exact"
	"seamrail/motion/law"
)

// degreesPerTurn is exact: the reason angles are kept in degrees.
var degreesPerTurn = exact.Int(360)

// Hold returns a track that stays at pos units for period seconds.
// It fails if period is not above 0 or pos is not finite.
func Hold(period exact.Rat, pos float64) (*Track, error) {
	if err := checkPeriod(period); err != nil {
		return nil, err
	}
	if !finite(pos) {
		return nil, fmt.Errorf("a hold at %g must be at a finite position", pos)
	}
	none := exact.Int(0)
	return layout(period, none, none, []leg{{lasts: period, base: pos, goal: pos}}), nil
}

// TurnSpec is a table that goes round by an exact share of a turn each loop.
type TurnSpec struct {
	Start float64   // degrees at frame 0
	Turns exact.Rat // a loop; its sign is the direction
	Law   law.Law   // uniform: at constant speed through the seam
	Rest  exact.Rat // s at rest after it, in [0, period)
}

// Turn returns a track that advances exactly 360*Turns degrees in period
// seconds. It fails if period is not above 0, Start is not finite, Turns is 0,
// Law is missing, or Rest is negative or leaves no time to turn.
func Turn(period exact.Rat, s TurnSpec) (*Track, error) {
	if err := checkPeriod(period); err != nil {
		return nil, err
	}
	switch {
	case !finite(s.Start):
		return nil, fmt.Errorf("a turn from %g must start at a finite angle", s.Start)
	case s.Turns.Sign() == 0:
		return nil, fmt.Errorf("0 turns a loop: there is nowhere to go; to stay put, use a hold")
	case s.Law == nil:
		return nil, fmt.Errorf("a turn needs a motion law, such as %q", "uniform")
	case s.Rest.Sign() < 0 || !s.Rest.Less(period):
		return nil, fmt.Errorf("a rest of %s s must be at least 0 s and leave time to turn in a loop of %s s", seconds(s.Rest), seconds(period))
	}
	advance := s.Turns.Mul(degreesPerTurn)
	goal := exact.FromFloat(s.Start).Add(advance).Float()
	return layout(period, advance, exact.Int(0),
		[]leg{{lasts: period.Sub(s.Rest), base: s.Start, goal: goal, curve: s.Law}, {lasts: s.Rest, base: goal, goal: goal}}), nil
}

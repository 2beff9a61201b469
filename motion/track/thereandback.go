package track

import (
	"fmt"
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/law"
)

// ThereAndBackSpec is a carriage that goes out and comes back, one or more
// times a loop.
type ThereAndBackSpec struct {
	From, To  float64   // units; From is near, To is far
	Out, Back law.Law   // Back nil: as Out
	Cycles    int       // per loop, at least 1
	OutShare  exact.Rat // of the moving time, in (0, 1); zero means 1/2
	DwellFar  exact.Rat // s at To, each cycle
	DwellNear exact.Rat // s at From, each cycle, after coming back
	Phase     exact.Rat // share of the loop that is past at frame 0
}

// ThereAndBack returns a track that goes out by one law, rests, comes back by
// another and rests, Cycles times in period seconds. At phase 0, frame 0 is
// the moment it sets out.
//
// It fails if the ends are not finite or are the same place, if a law is
// missing, if there is less than one cycle, if OutShare is outside (0, 1), if
// a dwell is negative, or if the dwells leave no time to move.
func ThereAndBack(period exact.Rat, s ThereAndBackSpec) (*Track, error) {
	if s.OutShare.Sign() == 0 {
		s.OutShare = exact.New(1, 2)
	}
	if s.Back == nil {
		s.Back = s.Out
	}
	if err := s.check(period); err != nil {
		return nil, err
	}
	cycle := period.Quo(exact.Int(int64(s.Cycles)))
	moving := cycle.Sub(s.DwellFar).Sub(s.DwellNear)
	if moving.Sign() <= 0 {
		return nil, fmt.Errorf("dwells of %s s a cycle leave no time to move in a cycle of %s s; together they must be shorter than the cycle",
			seconds(s.DwellFar.Add(s.DwellNear)), seconds(cycle))
	}
	out := moving.Mul(s.OutShare)
	one := []leg{
		{lasts: out, base: s.From, goal: s.To, curve: s.Out},
		{lasts: s.DwellFar, base: s.To, goal: s.To},
		{lasts: moving.Sub(out), base: s.To, goal: s.From, curve: s.Back},
		{lasts: s.DwellNear, base: s.From, goal: s.From},
	}
	var legs []leg
	for range s.Cycles {
		legs = append(legs, one...)
	}
	return layout(period, exact.Int(0), period.Mul(s.Phase).Neg(), legs), nil
}

// maxCycles bounds the pieces of a track: more reversals than captured frames
// in any loop worth filming.
const maxCycles = 10000

func (s ThereAndBackSpec) check(period exact.Rat) error {
	if err := checkPeriod(period); err != nil {
		return err
	}
	switch {
	case !finite(s.From) || !finite(s.To):
		return fmt.Errorf("the ends %g and %g must both be finite", s.From, s.To)
	case s.From == s.To:
		return fmt.Errorf("from and to are both %g: there is nowhere to go; to stay put, use a hold", s.From)
	case s.Out == nil:
		return fmt.Errorf("a there-and-back move needs a motion law, such as %q", "3-4-5")
	case s.Cycles < 1 || s.Cycles > maxCycles:
		return fmt.Errorf("%d cycles a loop; it must be from 1 to %d", s.Cycles, maxCycles)
	case s.OutShare.Sign() <= 0 || !s.OutShare.Less(exact.Int(1)):
		return fmt.Errorf("out share %s must be above 0 and below 1, such as 1/2", s.OutShare)
	case s.DwellFar.Sign() < 0 || s.DwellNear.Sign() < 0:
		return fmt.Errorf("a dwell of %s s must be at least 0 s", seconds(least(s.DwellFar, s.DwellNear)))
	}
	return nil
}

func checkPeriod(period exact.Rat) error {
	if period.Sign() <= 0 {
		return fmt.Errorf("a loop of %s s must be longer than 0 s", seconds(period))
	}
	return nil
}

func least(a, b exact.Rat) exact.Rat {
	if b.Less(a) {
		return b
	}
	return a
}

func finite(f float64) bool { return !math.IsNaN(f) && !math.IsInf(f, 0) }

func seconds(r exact.Rat) string { return r.Decimal(6) }

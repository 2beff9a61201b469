package track

import (
	"fmt"

	"seamrail/motion/base/exact"
	"seamrail/motion/law"
)

// StationsSpec is what comes to rest at every key and goes from one to the next by one
// law.
type StationsSpec struct {
	Keys []Key   // in time order, at least one; only time, place and hold count
	Law  law.Law // of each way
	// Cut has it stay at the last key until the loop is over, and at the first from
	// its beginning: it jumps at the seam. Otherwise it goes on to the first key.
	Cut bool
}

// Stations returns the track. It fails where Keys does, and without a law.
func Stations(period exact.Rat, s StationsSpec) (*Track, error) {
	if err := checkKeys(period, KeysSpec{Keys: s.Keys}); err != nil {
		return nil, err
	}
	if s.Law == nil {
		return nil, fmt.Errorf("what goes from key to key needs a motion law, such as %q", "3-4-5")
	}
	var legs []leg
	for i, k := range s.Keys {
		next := s.Keys[(i+1)%len(s.Keys)]
		if i == len(s.Keys)-1 {
			next.Time = next.Time.Add(period)
		}
		free := k.Time.Add(k.Hold)
		legs = append(legs, leg{lasts: k.Hold, base: k.Pos, goal: k.Pos})
		switch {
		case s.Cut && i == len(s.Keys)-1:
			legs = append(legs, leg{lasts: period.Sub(free), base: k.Pos, goal: k.Pos},
				leg{lasts: s.Keys[0].Time, base: next.Pos, goal: next.Pos})
		default:
			legs = append(legs, s.way(k.Pos, next.Pos, next.Time.Sub(free)))
		}
	}
	return layout(period, exact.Rat{}, s.Keys[0].Time, legs), nil
}

// way is the leg between two places; between two that are one it rests.
func (s StationsSpec) way(from, to float64, lasts exact.Rat) leg {
	out := leg{lasts: lasts, base: from, goal: to}
	if from != to {
		out.curve = s.Law
	}
	return out
}

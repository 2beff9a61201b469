package spin

import (
	"fmt"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
)

// Direction is which way a stand turns, seen from above.
type Direction int

// The directions. A stand that says nothing is taken to be clockwise.
const (
	Clockwise Direction = iota
	Anticlockwise
)

// String returns "clockwise" or "anticlockwise".
func (d Direction) String() string {
	if d == Anticlockwise {
		return "anticlockwise"
	}
	return "clockwise"
}

// ParseDirection reads what String prints.
func ParseDirection(s string) (Direction, error) {
	for _, d := range []Direction{Clockwise, Anticlockwise} {
		if s == d.String() {
			return d, nil
		}
	}
	return 0, fmt.Errorf("direction %q must be clockwise or anticlockwise, seen from above", s)
}

// Sign returns +1 for anticlockwise, the sense in which angles grow, and -1
// for clockwise.
func (d Direction) Sign() int64 {
	if d == Anticlockwise {
		return 1
	}
	return -1
}

// Speed is one speed of a stand.
type Speed struct {
	Name   string
	Period exact.Rat // real s a turn
	Sigma  exact.Rat // standard uncertainty of Period, s; 0 where it is exact
}

// Stand is a turntable that cannot be commanded: it runs at one of its speeds
// from before frame 0 until after the last.
type Stand struct {
	Name      string
	Direction Direction
	Speeds    []Speed
	// Regulation is by which share its speed may be off while it runs, such as
	// 1/100. It means something only where Regulated: else nothing is known of it.
	Regulation exact.Rat
	Regulated  bool
}

// Speed returns the speed called name.
func (s Stand) Speed(name string) (Speed, bool) {
	for _, v := range s.Speeds {
		if v.Name == name {
			return v, true
		}
	}
	return Speed{}, false
}

// Only returns the stand with that speed alone.
func (s Stand) Only(v Speed) Stand {
	s.Speeds = []Speed{v}
	return s
}

// The periods that make sense, in seconds a turn: a stand that turns a thousand
// times a second or once in eleven days is a slip of the hand.
var (
	minPeriod = exact.New(1, 1000)
	maxPeriod = exact.Int(1_000_000)
)

// Faults returns what is wrong with the stand: no speed, or speeds that are.
func (s Stand) Faults() fault.List {
	if len(s.Speeds) == 0 {
		return fault.List{{Quantity: strings.TrimSpace("stand " + s.Name), Bound: "has no speed",
			Fit: "give it one, such as a period of \"20.4 s\", or time it: \"20 turns in 412.3 s\""}}
	}
	var out fault.List
	for _, v := range s.Speeds {
		for _, f := range v.Faults() {
			if len(s.Speeds) > 1 {
				f.Quantity = "speed " + v.Name + ": " + f.Quantity
			}
			f.Quantity = s.named(f.Quantity)
			out = append(out, f)
		}
	}
	if s.Regulation.Sign() < 0 || !s.Regulation.Less(exact.Int(1)) {
		out = append(out, fault.Fault{Quantity: s.named("regulation"), Value: s.Regulation.String(),
			Bound: "must be at least 0 and below 1", Fit: "such as 1/100 for a speed within 1 %"})
	}
	return out
}

// named puts the stand's name, if it has one, before a quantity.
func (s Stand) named(quantity string) string {
	if s.Name == "" {
		return quantity
	}
	return "stand " + s.Name + ": " + quantity
}

// Faults returns what is wrong with the speed; Quantity is "period" or
// "uncertainty".
func (v Speed) Faults() fault.List {
	var out fault.List
	if v.Period.Less(minPeriod) || maxPeriod.Less(v.Period) {
		out = append(out, fault.Fault{Quantity: "period", Value: v.Period.Decimal(6) + " s",
			Bound: "must be above 0 s, at least 0.001 s and at most 1000000 s a turn",
			Fit:   "time a few turns: 20 turns in 412.3 s are a period of 20.615 s"})
	}
	if v.Sigma.Sign() < 0 || v.Sigma.Sign() > 0 && !v.Sigma.Less(v.Period) {
		out = append(out, fault.Fault{Quantity: "uncertainty", Value: v.Sigma.Decimal(6) + " s",
			Bound: "must be at least 0 s and below the period, " + v.Period.Decimal(6) + " s",
			Fit:   "0.05 s is usual for three turns by a stopwatch"})
	}
	return out
}

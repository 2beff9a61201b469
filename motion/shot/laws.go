package shot

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"seamrail/motion/exact"
	"seamrail/motion/law"
	"seamrail/motion/optimal"
	"seamrail/motion/source"
)

// The two laws that take a shape.
const (
	trapezoidal  = "trapezoidal"
	sevenSegment = "seven-segment"
)

var (
	defaultRamp      = exact.New(1, 3)
	defaultJerkShare = exact.New(1, 3)
)

// laws reads the law of the way out, or of a turn, and of the way back.
func (r mover) laws(move string) (out, back law.Law) {
	name, backName := r.lawNames(move)
	ramp, jerkShare := r.shape(name, backName)
	r.softStrays(name, backName)
	out = r.law(r.raw.Law, "law", name, ramp, jerkShare)
	back = out
	if soft(name) && out == nil { // what is wrong with it has been told
		return nil, nil
	}
	if comesBack(move) && (r.raw.BackLaw.Set || soft(name) && name != optimal.Name && r.backShare() != 1) {
		t := r.raw.BackLaw
		if !t.Set {
			t = r.raw.Law
		}
		back = r.law(t, "back-law", backName, ramp, jerkShare)
	}
	return out, back
}

func (r mover) lawNames(move string) (name, back string) {
	name = r.raw.Law.Text
	if !r.raw.Law.Set {
		why := "from rest to rest, smoothest"
		name = "3-4-5"
		if move == Turn {
			name, why = "uniform", "round and round without a pause"
		}
		if move == Through {
			name, why = "uniform", "across at an even speed"
		}
		r.Default(r.path+"law", name, why)
	}
	back = r.raw.BackLaw.Text
	if !r.raw.BackLaw.Set {
		back = name
		if comesBack(move) {
			r.Default(r.path+"back-law", back, "the same as the way out")
		}
	}
	return name, back
}

// comesBack tells whether a move has a law of the way back.
func comesBack(move string) bool { return move == ThereAndBack || move == Arc }

// shape reads the shares of the laws that have any, and reports those given to
// laws that have none.
func (r mover) shape(names ...string) (ramp, jerkShare exact.Rat) {
	ramped, shared := false, false
	for _, n := range names {
		ramped = ramped || n == trapezoidal || n == sevenSegment || n == optimal.CarriedName
		shared = shared || n == sevenSegment || n == optimal.CarriedName
	}
	ramp, jerkShare = defaultRamp, defaultJerkShare
	if ramped {
		ramp = r.share(r.raw.Ramp, "ramp", defaultRamp, "a third up, a third steady, a third down", upToHalf, "above 0 and at most 1/2")
	} else if r.raw.Ramp.Set {
		r.Wrong(r.raw.Ramp, r.path+"ramp", "has no meaning for this law", `it is for law = "trapezoidal", "seven-segment" or "carried"`)
	}
	if shared {
		most, bound := upToHalf, "above 0 and at most 1/2"
		if slices.Contains(names, optimal.CarriedName) {
			most, bound = upToOne, "above 0 and at most 1"
		}
		jerkShare = r.share(r.raw.JerkShare, "jerk-share", defaultJerkShare, "a third of the ramp each to build up, hold and die down", most, bound)
	} else if r.raw.JerkShare.Set {
		r.Wrong(r.raw.JerkShare, r.path+"jerk-share", "has no meaning for this law", `it is for law = "seven-segment" or "carried"`)
	}
	return ramp, jerkShare
}

func upToHalf(s exact.Rat) bool { return s.Sign() > 0 && !half.Less(s) }

func upToOne(s exact.Rat) bool { return s.Sign() > 0 && !exact.Int(1).Less(s) }

func (r mover) law(t source.Text, key, name string, ramp, jerkShare exact.Rat) law.Law {
	var l law.Law
	var err error
	switch name {
	case trapezoidal:
		l, err = law.Trapezoidal(ramp.Float())
	case sevenSegment:
		l, err = law.SevenSegment(ramp.Float(), jerkShare.Float())
	case optimal.CarriedName:
		if l, err = optimal.NewCarried(ramp.Float(), jerkShare.Float()); err != nil {
			l = nil
		}
	case optimal.Name, optimal.QuietName, optimal.WideName:
		share := 1.0
		if key == "back-law" {
			share = r.backShare()
		}
		return r.softest(t, key, name, share)
	default:
		if l, err = law.Named(name); err != nil {
			err = fmt.Errorf("%w; carried, softest, quiet and quiet-wide are laws too", err)
		}
	}
	if err != nil {
		r.Fail(t, r.path+key, errors.New(strings.TrimPrefix(err.Error(), "law ")))
	}
	return l
}

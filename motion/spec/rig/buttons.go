package rig

import (
	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
	"seamrail/motion/law"
)

// Buttons are what a rig that is set and started by hand offers, and how it then goes.
// The zero value is that of a rig that is driven.
type Buttons struct {
	Times  Offers // s of a way from one end to the other, as they are set
	Pauses Offers // s that it rests at an end before it turns round by itself, as they are set
	Trips  Trips
	Ramp   Ramp

	// Pace is how many real seconds each of its seconds lasts, exactly; 1 until it is
	// measured. Spread is its standard uncertainty, and Basis where both come from, ""
	// where nothing was measured.
	Pace, Spread exact.Rat
	Basis        string

	Press     exact.Rat // s, standard uncertainty of a press by hand
	Lag       exact.Rat // s from the press to the motion
	LagSpread exact.Rat // s, its standard uncertainty
}

// Measured tells whether its own clock has been held against another.
func (b Buttons) Measured() bool { return b.Basis != "" }

// Trips is how often it goes there and back after one press.
type Trips struct {
	ByHand  bool   // not at all: each way has a press of its own
	Endless bool   // until it is stopped
	Counts  Offers // so often
}

// Offers tells whether it goes there and back so often after one press, or as long as
// it is let.
func (t Trips) Offers(n int64) bool { return t.ByHand || t.Endless || t.Counts.Has(exact.Int(n)) }

// Ramp is how it gathers speed at the beginning of a way, and as it loses it at the end.
type Ramp struct {
	Law       string    // one of those that have a name
	Time      exact.Rat // real s of each ramp, however long the way takes; 0 where Share says it
	Share     exact.Rat // of the way's time that each ramp takes; 0 where Time says it
	JerkShare exact.Rat // of the ramp in which acceleration builds up; of a law that takes one
}

// Words are the ramp in plain words: "trapezoidal with ramps of 0.8 s".
func (r Ramp) Words() string {
	words := r.Law
	switch {
	case r.Time.Sign() > 0:
		words += " with ramps of " + unit.Format(r.Time.Float(), unit.Time)
	case r.Share.Sign() > 0:
		words += " with ramps of " + r.Share.String() + " of the way's time"
	}
	if r.JerkShare.Sign() > 0 {
		words += ", in " + r.JerkShare.String() + " of which acceleration builds up, and again dies down"
	}
	return words
}

// Least is how many real seconds a way lasts at least, so that both ramps fit.
func (r Ramp) Least() exact.Rat { return r.Time.Add(r.Time) }

// Of returns the law of a way of so many real seconds. The error says why there is
// none.
func (r Ramp) Of(way exact.Rat) (law.Law, error) {
	share := r.Share
	if r.Time.Sign() > 0 {
		share = r.Time.Quo(way)
	}
	k, err := kindOfLaw(r.Law)
	if err != nil {
		return nil, err
	}
	return k.Make(law.Spec{Ramp: share.Float(), JerkShare: r.JerkShare.Float()})
}

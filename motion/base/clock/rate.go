// Package clock ties captured frames, timeline frames and seconds together
// with exact rationals: rates, retime, loops, cadence and timecode.
package clock

import (
	"fmt"
	"strings"

	"seamrail/motion/base/exact"
)

var (
	// maxRate and minRate bound a frame rate, in frames a second: a million a
	// second is beyond every camera that a rig could keep up with, one in a
	// million seconds is eleven days a frame.
	maxRate = exact.Int(1_000_000)
	minRate = exact.New(1, 1_000_000)
	// slowed is the ratio that the colour television rates stand under their
	// whole neighbours (SMPTE ST 12-1).
	slowed = exact.New(1000, 1001)
)

const (
	// maxNominal is the greatest whole rate, in frames a second, whose slowed
	// neighbour is recognised from a decimal.
	maxNominal = 960
	// minPlaces and maxPlaces bound the decimals of a recognised slowed rate:
	// with one, 23.9 could be anything; float64 printing stops short of ten.
	minPlaces, maxPlaces = 2, 9
	// maxText is the longest rate that is read, in bytes: two parts of 18 digits
	// with their points and spaces fit, and an error repeats no more than this.
	maxText = 60
	// textPlaces tells every slowed rate up to maxNominal from its neighbours.
	textPlaces = 3
)

// ParseRate reads a frame rate in frames a second: "24", "12.5", "1/2" (a frame
// every two seconds) or "120000/1001". A decimal that is the rounded value of
// n*1000/1001, where n is a multiple of 24 or 30 up to 960, means that number
// exactly: "23.976" is 24000/1001, "119.88" is 120000/1001. For 2997/100 itself
// write the fraction. The rate must be above 0, at least 1/1000000 and at most
// 1000000.
func ParseRate(s string) (exact.Rat, error) {
	text := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(s), "fps"))
	if len(text) > maxText {
		return exact.Rat{}, fmt.Errorf("frame rate of %d characters must have at most %d; write it like \"24\"", len(text), maxText)
	}
	r, err := exact.Parse(text)
	if err != nil {
		return exact.Rat{}, fmt.Errorf("frame rate: %w; write it like \"24\", \"23.976\" or \"24000/1001\"", err)
	}
	if n, ok := nominalOf(text, r); ok {
		return n.Mul(slowed), nil
	}
	return r, checkRate("frame rate", r)
}

func checkRate(name string, r exact.Rat) error {
	if r.Less(minRate) || maxRate.Less(r) {
		return fmt.Errorf("%s %s must be above 0, at least 1/1000000 and at most 1000000 frames a second", name, r)
	}
	return nil
}

// nominalOf finds the whole rate whose slowed neighbour the decimal text rounds.
func nominalOf(text string, r exact.Rat) (exact.Rat, bool) {
	_, fraction, ok := strings.Cut(text, ".")
	places := len(fraction)
	if !ok || strings.Contains(text, "/") || places < minPlaces || places > maxPlaces {
		return exact.Rat{}, false
	}
	n := r.Ceil()
	if !nominal(n) {
		return exact.Rat{}, false
	}
	scale := exact.Int(1)
	for range places {
		scale = scale.Mul(exact.Int(10))
	}
	return n, n.Mul(slowed).Mul(scale).Round().Equal(r.Mul(scale))
}

// nominal tells whether n is a whole rate that has a slowed neighbour in use.
func nominal(n exact.Rat) bool {
	v, ok := n.Int64()
	return ok && v > 0 && v <= maxNominal && (v%24 == 0 || v%30 == 0)
}

// RateText prints a rate for people, in frames a second: "24", "12.5",
// "23.976 (24000/1001)", "0.333 (1/3)". ParseRate reads the first word back to
// the same rate where no fraction follows, and for slowed rates of up to 960.
func RateText(r exact.Rat) string {
	short := r.Decimal(textPlaces)
	if back, err := exact.Parse(short); err == nil && back.Equal(r) && !slowedText(short, r) {
		return short
	}
	if _, fraction, _ := strings.Cut(short, "."); len(fraction) == 1 {
		short += "0" // ParseRate takes one decimal as it stands
	}
	return short + " (" + r.String() + ")"
}

func slowedText(text string, r exact.Rat) bool {
	_, ok := nominalOf(text, r)
	return ok
}

package preview

import (
	"fmt"

	"seamrail/motion/base/exact"
)

// Delay is how long an animated PNG shows a picture: Num/Den seconds. Both have
// 16 bits (W3C PNG, third edition, fcTL), so that most frame times fit exactly
// and some do not: 1001/24000 s does, 1001/120000 s does not.
type Delay struct {
	Num, Den uint16
	Off      exact.Rat // seconds by which it is longer than what was asked
}

const maxDelay = 1<<16 - 1

// NewDelay returns the delay nearest to so many seconds. It returns an error
// outside 1/65535..65535 s.
func NewDelay(sec exact.Rat) (Delay, error) {
	if sec.Less(exact.New(1, maxDelay)) || exact.Int(maxDelay).Less(sec) {
		return Delay{}, fmt.Errorf("an animated PNG cannot show a picture for %s s: 1/%d to %d s fit", sec, maxDelay, maxDelay)
	}
	got := sec
	if !fits(sec) {
		got = nearestDelay(sec)
	}
	return Delay{uint16(got.Num().Int64()), uint16(got.Den().Int64()), got.Sub(sec)}, nil
}

func fits(sec exact.Rat) bool {
	return sec.Num().BitLen() <= 16 && sec.Den().BitLen() <= 16
}

// nearestDelay is the fraction nearest to sec of those whose greater part fits:
// its denominator below a second, its numerator above.
func nearestDelay(sec exact.Rat) exact.Rat {
	if exact.Int(1).Less(sec) {
		return exact.Approx(sec.Inv().Float(), maxDelay).Inv()
	}
	return exact.Approx(sec.Float(), maxDelay)
}

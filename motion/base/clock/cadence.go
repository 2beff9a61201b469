package clock

import (
	"fmt"
	"strings"

	"seamrail/motion/base/exact"
)

// maxPattern is the longest pattern that is still one to a person's eye and
// fits a report line.
const maxPattern = 24

// Cadence says how evenly captured frames fall on timeline frames, when
// timeline frame i shows captured frame floor(i*PerScreen).
type Cadence struct {
	Even bool   // every captured frame is shown n times, or every nth is shown
	Text string // the same in words
	// Pattern repeats for ever: how many times each captured frame in turn is
	// shown where PerScreen is at most 1, else how many captured frames each
	// timeline frame in turn uses up. Nil if longer than 24.
	Pattern []int
}

// Cadence returns the clock's cadence.
func (c Clock) Cadence() Cadence {
	per := c.PerScreen()
	one := exact.Int(1)
	switch {
	case per.Equal(one):
		return Cadence{true, "every captured frame is shown once", []int{1}}
	case per.IsInt():
		return even(per, "one captured frame in %s is shown")
	case per.Inv().IsInt():
		return even(per.Inv(), "every captured frame is shown %s times")
	case per.Less(one):
		return uneven(per.Inv(), exact.Rat.Ceil, "captured frames are shown %s times in turn",
			"each captured frame is shown %s times on average, in no short pattern")
	}
	return uneven(per, exact.Rat.Floor, "timeline frames use up %s captured frames in turn",
		"each timeline frame uses up %s captured frames on average, in no short pattern")
}

func even(n exact.Rat, text string) Cadence {
	c := Cadence{Even: true, Text: fmt.Sprintf(text, n)}
	if k, ok := n.Int64(); ok {
		c.Pattern = []int{int(k)}
	}
	return c
}

// uneven counts whole numbers between successive multiples of ratio, which is
// above 1: its pattern has as many entries as ratio's denominator.
func uneven(ratio exact.Rat, whole func(exact.Rat) exact.Rat, short, long string) Cadence {
	length := ratio.Den()
	if !length.IsInt64() || length.Int64() > maxPattern {
		return Cadence{Text: "uneven: " + fmt.Sprintf(long, ratio.Decimal(6))}
	}
	pattern := make([]int, length.Int64())
	words := make([]string, len(pattern))
	for i := range pattern {
		from, to := exact.Int(int64(i)).Mul(ratio), exact.Int(int64(i+1)).Mul(ratio)
		pattern[i] = int(whole(to).Sub(whole(from)).Whole())
		words[i] = fmt.Sprint(pattern[i])
	}
	return Cadence{Text: "uneven: " + fmt.Sprintf(short, strings.Join(words, ", ")), Pattern: pattern}
}

// Pictures returns how many different pictures a second of real time gives: captured
// frames that are skipped on the timeline are not seen.
func (c Clock) Pictures() exact.Rat {
	if per := c.PerScreen(); exact.Int(1).Less(per) {
		return c.Capture.Quo(per)
	}
	return c.Capture
}

package report

import (
	"fmt"
	"strings"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/plan"
)

// secondDigits is how many decimals times are printed with: a millisecond, a
// fraction of any frame.
const secondDigits = 3

// moveWords tells what an axis does during the loop.
func moveWords(a *plan.Axis, c clock.Clock) string {
	return a.Move.Does.Words(c) + shapedWords(a.Move)
}

// counted prints "1 key", "3 keys".
func counted(n int64, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// seconds prints an exact time.
func seconds(s exact.Rat) string { return s.Decimal(secondDigits) + " s" }

// pace says in words how the picture's speed stands to life's.
func pace(retime exact.Rat) string {
	one := exact.Int(1)
	switch retime.Cmp(one) {
	case 0:
		return "as fast as life"
	case -1:
		return decimal(retime.Inv()) + " times slower than life"
	}
	return decimal(retime) + " times faster than life"
}

func decimal(r exact.Rat) string { return r.Decimal(secondDigits) }

// where says when something happens, on screen and in captured frames.
func where(p *plan.Plan, real float64) string {
	c := p.Loop.Clock
	return fmt.Sprintf("at %.3f s, frame %.1f", noMinus(real/c.Retime.Float()), noMinus(real*c.Capture.Float()))
}

// noMinus turns the negative zero that a rounding would print as "-0" into 0.
func noMinus(v float64) float64 {
	if v > -0.0005 && v < 0 {
		return 0
	}
	return v
}

func list(words []string) string { return strings.Join(words, ", ") }

package report

import (
	"fmt"
	"strings"

	"seamrail/motion/clock"
	"seamrail/motion/exact"
	"seamrail/motion/plan"
	"seamrail/motion/shot"
	"seamrail/motion/unit"
)

// secondDigits is how many decimals times are printed with: a millisecond, a
// fraction of any frame.
const secondDigits = 3

// moveWords tells what an axis does during the loop.
func moveWords(a *plan.Axis, c clock.Clock) string {
	m := a.Move
	switch m.Move {
	case shot.ThereAndBack:
		return thereAndBackWords(m, c) + shapedWords(m)
	case shot.Turn:
		return turnWords(m) + shapedWords(m)
	case shot.Keys:
		return keysWords(m) + shapedWords(m)
	case shot.Through:
		return throughWords(m)
	case shot.Aim:
		return aimWords(m)
	case shot.Arc:
		return arcWords(m, c)
	}
	return "stays at " + m.At.String()
}

func thereAndBackWords(m shot.AxisMove, c clock.Clock) string {
	words := fmt.Sprintf("from %s to %s and back, %s", m.From, m.To, times(m.Cycles))
	words += ", by the " + m.Law.Name() + " law"
	if m.BackLaw != nil && m.BackLaw.Name() != m.Law.Name() {
		words += ", back by the " + m.BackLaw.Name() + " law"
	}
	if half := exact.New(1, 2); m.OutShare.Sign() > 0 && !m.OutShare.Equal(half) {
		words += fmt.Sprintf("; the way out takes %s of the moving time", m.OutShare)
	}
	words += dwellWords("; waits %s on screen at the far end", m.DwellFar, c)
	words += dwellWords("; waits %s on screen at the near end", m.DwellNear, c)
	if m.Phase.Sign() != 0 {
		words += fmt.Sprintf("; frame 0 is %s of the loop into it", m.Phase)
	}
	return words
}

func dwellWords(format string, real exact.Rat, c clock.Clock) string {
	if real.Sign() == 0 {
		return ""
	}
	return fmt.Sprintf(format, seconds(real.Quo(c.Retime)))
}

func times(n int) string {
	if n <= 1 {
		return "once a loop"
	}
	return fmt.Sprintf("%d times a loop", n)
}

func turnWords(m shot.AxisMove) string {
	by := "at a constant rate"
	if m.Law != nil && m.Law.Name() != "uniform" {
		by = "by the " + m.Law.Name() + " law"
	}
	degrees := m.Turns.Mul(exact.Int(360))
	name := "turns"
	if m.Turns.Abs().Cmp(exact.Int(1)) <= 0 {
		name = "turn"
	}
	return fmt.Sprintf("%s %s a loop (%s), from %s, %s", m.Turns, name,
		unit.Format(degrees.Float(), unit.Angle), m.Start, by)
}

func keysWords(m shot.AxisMove) string {
	curve := "along the smoothest curve"
	if m.Monotone {
		curve = "along a curve that never passes a key"
	}
	words := fmt.Sprintf("through %s %s", counted(int64(len(m.Keys)), "key"), curve)
	words += feelWords(m)
	if m.Advance.Sign() != 0 {
		words += ", " + unit.Format(m.Advance.Float(), unit.Angle) + " further each loop"
	}
	return words
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

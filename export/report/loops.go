package report

import (
	"fmt"
	"slices"
	"strings"

	"seamrail/export/spinwords"
	"seamrail/motion/base/clock"
	"seamrail/motion/plan"
	"seamrail/motion/turntable/spin"
)

// loopsTold is how many loops are listed: more are not read.
const loopsTold = 5

// search looks for loops in which every stand of the plan closes.
func search(pl *plan.Plan) (spin.Query, spin.Answer, error) {
	q := pl.SpinQuery()
	q.Most = loopsTold
	a, err := spin.Find(q)
	return q, a, err
}

// loops lists the loops that suit the stands.
func (p *page) loops(pl *plan.Plan) {
	if len(pl.Stands) == 0 {
		return
	}
	p.Section("LOOPS THAT SUIT " + standsTold(pl))
	q, a, err := search(pl)
	if err != nil {
		p.Field("no search", clean(err.Error()))
		return
	}
	p.Field("looked at", fmt.Sprintf("%d loops of whole frames, %s s to %s s on screen", a.Considered, decimal(q.From), decimal(q.To)))
	p.Field("nearest", nearestWords(pl))
	if a.Closing == 0 {
		p.Inked(yellow, "closing", "none; the nearest are")
	} else {
		p.Field("closing", fmt.Sprintf("%d of them; the best, error and uncertainty together, are", a.Closing))
	}
	for _, l := range a.Loops {
		p.Bullet(loopInk(l), loopMark(l), loopWords(pl, l))
	}
	if slices.ContainsFunc(a.Loops, func(l spin.Loop) bool { return loopMark(l) == "?" }) {
		p.Field("?", "closes if the speed is as measured and does not drift")
	}
	for _, f := range a.Fits {
		p.Bullet(green, "+", f.Offer())
	}
}

// nearestWords names the loops on either side that close with nothing else
// changed.
func nearestWords(pl *plan.Plan) string {
	var parts []string
	for _, l := range pl.Nearest() {
		parts = append(parts, fmt.Sprintf("%s (%s)", counted(l.Screen, "frame"), seconds(l.OnScreen())))
	}
	switch {
	case len(parts) == 0 && closes(pl):
		return "no other closes with nothing but its length changed"
	case len(parts) == 0:
		return "none closes with nothing but its length changed"
	}
	return strings.Join(parts, " or ") + ", with nothing else changed"
}

func standsTold(pl *plan.Plan) string {
	if len(pl.Stands) == 1 {
		return "THE STAND"
	}
	return "THE STANDS TOGETHER"
}

// sureMark stands before a loop that closes for sure.
const sureMark = "+"

func loopInk(l spin.Loop) string {
	if loopMark(l) == sureMark {
		return green
	}
	return yellow
}

func loopMark(l spin.Loop) string {
	switch {
	case !l.Closes():
		return "-"
	case slices.ContainsFunc(l.Seams, func(s spin.Seam) bool { return !s.Certain() }):
		return "?"
	}
	return sureMark
}

// seamWords says what part of a turn the product should have made, and how far
// it is off.
func seamWords(s spin.Seam) string {
	if s.Error.Sign() == 0 {
		return spinwords.Match(s) + " exactly"
	}
	return fmt.Sprintf("%s, off by %s, %s", spinwords.Match(s), spinwords.Measures(s, s.Error), spinwords.Frames(s))
}

// loopWords is one loop on a line: frames, seconds, rate, and each stand's
// speed and error.
func loopWords(pl *plan.Plan, l spin.Loop) string {
	words := fmt.Sprintf("%s, %s", counted(l.Screen, "frame"), seconds(l.OnScreen()))
	if !l.Clock.Capture.Equal(pl.Loop.Clock.Capture) {
		words += ", captured at " + clock.RateText(l.Clock.Capture)
	}
	for i, s := range l.Seams {
		name := clean(s.Product.Stand.Name)
		if len(pl.Stands[i].Rig.Speeds) > 1 {
			name += " at " + clean(s.Speed.Name)
		}
		words += "; " + name + ": " + seamWords(s)
	}
	return words
}

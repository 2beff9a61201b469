package report

import (
	"fmt"
	"slices"

	"seamrail/motion/clock"
	"seamrail/motion/plan"
	"seamrail/motion/spin"
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
	p.section("LOOPS THAT SUIT " + standsTold(pl))
	q, a, err := search(pl)
	if err != nil {
		p.field("no search", clean(err.Error()))
		return
	}
	p.field("looked at", fmt.Sprintf("%d loops of whole frames, %s s to %s s on screen", a.Considered, decimal(q.From), decimal(q.To)))
	if a.Closing == 0 {
		p.inked(yellow, "closing", "none; the nearest are")
	} else {
		p.field("closing", fmt.Sprintf("%d of them; the best are", a.Closing))
	}
	for _, l := range a.Loops {
		p.bullet(loopInk(l), loopMark(l), loopWords(pl, l))
	}
	if unsure(a.Loops) {
		p.field("?", "closes if the period is as measured; measure more to be sure")
	}
	for _, f := range a.Fits {
		p.bullet(green, "+", "would close: "+f.Text)
	}
}

func standsTold(pl *plan.Plan) string {
	if len(pl.Stands) == 1 {
		return "THE STAND"
	}
	return fmt.Sprintf("ALL %d STANDS", len(pl.Stands))
}

func loopInk(l spin.Loop) string {
	if l.Sure() {
		return green
	}
	return yellow
}

func loopMark(l spin.Loop) string {
	switch {
	case l.Sure():
		return "+"
	case l.Closes():
		return "?"
	}
	return "-"
}

// unsure tells whether a loop closes only if its stands are as measured.
func unsure(loops []spin.Loop) bool {
	return slices.ContainsFunc(loops, func(l spin.Loop) bool { return l.Closes() && !l.Sure() })
}

// matchWords says after which part of a turn the product looks the same.
func matchWords(s spin.Seam) string {
	if s.Product.Symmetry == 1 {
		return counted(s.Match, "turn")
	}
	return fmt.Sprintf("%s of %d", counted(s.Match, "face"), s.Product.Symmetry)
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
		words += fmt.Sprintf("; %s: %s, off by %s, %s", name, matchWords(s), angle(s.Error.Abs()), standMeasures(s))
	}
	return words
}

package page

import (
	"fmt"

	"seamrail/cmd/internal/job"
	"seamrail/export/report/fitreport"
	"seamrail/export/report/spinreport"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/fault"
	"seamrail/motion/plan/loopsearch"
	"seamrail/motion/plan/reach"
	"seamrail/motion/spec/shot"
	"seamrail/motion/turntable/spin"
)

// Spun is what the spin command says with --json, and what takes each of it up.
type Spun struct {
	spinreport.Document
	Take   []Fit `json:"take"`   // of each loop
	Offers []Fit `json:"offers"` // of each fit
}

func spunOf(p *job.Job, d spinreport.Data) *Spun {
	return &Spun{
		Document: d.Facts().(spinreport.Document),
		Take:     listOf(d.Answer.Loops, func(l spin.Loop) Fit { return adopting(p.Shot, loopWords(l.Loop), reach.LoopEdits(p.Shot, l)) }),
		Offers:   listOf(d.Answer.Fits, func(f spin.Fit) Fit { return fitOf(p.OfferOf(f)) }),
	}
}

// Fitted is what the fit command says with --json, and what takes each of both loops up.
type Fitted struct {
	fitreport.Document
	TakeQuickest *Fit `json:"take_quickest"` // null as the loop is
	TakeGentlest *Fit `json:"take_gentlest"`
}

func fittedOf(s shot.Shot, d fitreport.Data) *Fitted {
	take := func(f *loopsearch.Found) *Fit {
		if f == nil {
			return nil
		}
		words := loopWords(f.Shot.Loop)
		if f.Law != "" {
			words += ", law " + f.Law
		}
		out := adopting(s, words, f.Edits(s))
		return &out
	}
	return &Fitted{d.Facts().(fitreport.Document), take(d.Answer.Quickest), take(d.Answer.Gentlest)}
}

func loopWords(l clock.Loop) string { return fmt.Sprintf("a loop of %d frames", l.Screen) }

// adopting are values that the shot's file is understood with; where it is not, they are for a
// hand.
func adopting(s shot.Shot, words string, edits []fault.Edit) Fit {
	if _, err := reach.Changed(s, edits); err != nil {
		edits = nil
	}
	return fitOf(fault.Cure{Words: words, Edits: edits})
}

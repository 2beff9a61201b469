package planreport

import (
	"fmt"
	"slices"
	"strings"

	"seamrail/export/report"
	"seamrail/export/report/spinreport"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/plain"
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
func (p *page) loops() {
	pl := p.pl
	if len(pl.Stands) == 0 {
		return
	}
	which := "THE STAND"
	if len(pl.Stands) > 1 {
		which = "THE STANDS TOGETHER"
	}
	p.Named("closing-loops", "LOOPS THAT SUIT "+which)
	q, a, err := search(pl)
	if err != nil {
		p.Field("no search", err.Error())
		return
	}
	p.Field("looked at", fmt.Sprintf("%d loops of whole frames, %s s to %s s on screen", a.Considered, decimal(q.From), decimal(q.To)))
	p.Field("nearest", nearestWords(pl))
	if a.Closing == 0 {
		p.Toned(report.Fair, "closing", "none; the nearest are")
	} else {
		p.Field("closing", fmt.Sprintf("%d of them; the best, error and uncertainty together, are", a.Closing))
	}
	for _, l := range a.Loops {
		p.Bullets(loopTone(l), loopMark(l), loopWords(pl, l))
	}
	if slices.ContainsFunc(a.Loops, func(l spin.Loop) bool { return loopMark(l) == "?" }) {
		p.Field("?", "closes if the speed is as measured and does not drift")
	}
	for _, f := range a.Fits {
		p.Bullets(report.Good, "+", f.Offer())
	}
}

// nearestWords names the loops on either side that close with nothing else
// changed.
func nearestWords(pl *plan.Plan) string {
	var parts []string
	for _, l := range pl.Nearest() {
		parts = append(parts, fmt.Sprintf("%s (%s)", plain.Count(l.Screen, "frame"), seconds(l.OnScreen())))
	}
	switch {
	case len(parts) > 0:
	case slices.ContainsFunc(pl.Stands, func(s plan.Stand) bool { return !s.Seam.Closes() }):
		return "none closes with nothing but its length changed"
	default:
		return "no other closes with nothing but its length changed"
	}
	return strings.Join(parts, " or ") + ", with nothing else changed"
}

// sureMark stands before a loop that closes for sure.
const sureMark = "+"

func loopTone(l spin.Loop) report.Tone {
	if loopMark(l) == sureMark {
		return report.Good
	}
	return report.Fair
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
		return spinreport.Match(s) + " exactly"
	}
	return fmt.Sprintf("%s, off by %s, %s", spinreport.Match(s), spinreport.Measures(s, s.Error), spinreport.Frames(s))
}

// loopWords is one loop on a line: frames, seconds, rate, and each stand's
// speed and error.
func loopWords(pl *plan.Plan, l spin.Loop) string {
	words := fmt.Sprintf("%s, %s", plain.Count(l.Screen, "frame"), seconds(l.OnScreen()))
	if !l.Clock.Capture.Equal(pl.Loop.Clock.Capture) {
		words += ", captured at " + clock.RateText(l.Clock.Capture)
	}
	for i, s := range l.Seams {
		name := s.Product.Stand.Name
		if len(pl.Stands[i].Rig.Speeds) > 1 {
			name += " at " + s.Speed.Name
		}
		words += "; " + name + ": " + seamWords(s)
	}
	return words
}

// Closing is what a search for loops that suit the stands found.
type Closing struct {
	Considered int64         `json:"considered"`
	Closing    int64         `json:"closing"`
	Nearest    []int64       `json:"nearest_timeline_frames"` // with nothing but the length changed
	Loops      []ClosingLoop `json:"loops"`                   // best first
	Fits       []string      `json:"fits"`                    // what would close, where none does
	Trouble    string        `json:"trouble,omitempty"`
}

// ClosingLoop is one loop of a search.
type ClosingLoop struct {
	spinreport.Length
	Speeds []string    `json:"speeds"` // of each stand
	Seams  []StandSeam `json:"seams"`
	Closes bool        `json:"closes"`
	Sure   bool        `json:"closes_for_sure"`
}

// closingOf returns what would suit the stands; nil in a plan without any.
func closingOf(pl *plan.Plan) *Closing {
	if len(pl.Stands) == 0 {
		return nil
	}
	out := &Closing{
		Nearest: report.Each(pl.Nearest(), func(l clock.Loop) int64 { return l.Screen }),
		Loops:   []ClosingLoop{}, Fits: []string{},
	}
	_, a, err := search(pl)
	if err != nil {
		out.Trouble = err.Error()
		return out
	}
	out.Considered, out.Closing = a.Considered, a.Closing
	out.Fits = report.Each(a.Fits, func(f spin.Fit) string { return f.Text })
	for _, l := range a.Loops {
		one := ClosingLoop{Length: spinreport.LengthOf(l), Closes: l.Closes(), Sure: loopMark(l) == sureMark}
		for _, s := range l.Seams {
			one.Speeds, one.Seams = append(one.Speeds, s.Speed.Name), append(one.Seams, seamOf(s))
		}
		out.Loops = append(out.Loops, one)
	}
	return out
}

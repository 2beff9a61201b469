// Package spinreport reports which loops suit a display stand, and has the words
// for how a product on one comes round. Every report that tells of a stand says it
// with them.
package spinreport

import (
	"fmt"
	"slices"
	"strings"

	"seamrail/export/report"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/source"
	"seamrail/motion/turntable/spin"
)

// Data is all that a report tells.
type Data struct {
	Title    string
	Query    spin.Query
	Answer   spin.Answer
	Assume   spin.Assume
	Measured []Measured
	Own      *spin.Loop // the loop of the shot itself; nil without a shot
	Tables   []Table
	Defaults []source.Default
}

// Measured is a period that was worked out from readings.
type Measured struct {
	Stand, Speed string
	spin.Measured
}

// Table is a turntable that the rig commands.
type Table struct {
	Name      string
	Turns     exact.Rat // a loop; below 0 clockwise, seen from above
	Speed     exact.Rat // degrees a real second on the average, at least 0
	Steady    bool      // at one speed all through
	Symmetry  int64     // of what stands on it; 0 where it is not stated
	Remainder spin.Remainder
	RunUp     int64     // captured frames before frame 0
	RunOut    int64     // and after the last
	Period    exact.Rat // real s of the loop
}

// page is a report being made.
type page struct {
	report.Report
	d Data
}

// Report tells it to people.
func (d Data) Report() report.Report {
	c := d.Query.Clock
	p := &page{d: d}
	p.Title = d.Title
	p.Subtitle = fmt.Sprintf("captured at %s, played at %s frames/s, retime %s", shortRate(c.Capture), shortRate(c.Playback), c.Retime)
	stands := len(d.Query.Products) > 0
	if stands {
		p.head()
	}
	for _, m := range d.Measured {
		p.measured(m)
	}
	if stands {
		p.loops()
		p.best()
		p.start()
	}
	for _, t := range d.Tables {
		p.table(t)
	}
	p.Defaults(d.Defaults)
	p.cautions(stands)
	return p.Report
}

func (p *page) head() {
	a := p.d.Answer
	switch first := a.Loops[0]; {
	case a.Closing == 0:
		p.Headline(report.Poor, "NONE CLOSES", fmt.Sprintf("within %s; the nearest is %s", p.asked(), p.length(first)))
	case first.Certain():
		turned := strings.Join(report.Each(first.Seams, Match), " and ")
		p.Headline(report.Good, "CLOSES", p.length(first)+": "+turned)
	default:
		p.Headline(report.Fair, "UNSURE", p.unsure(first))
	}
}

// unsure says that loops close if the periods are as stated, but that these are
// not known well enough.
func (p *page) unsure(first spin.Loop) string {
	words := fmt.Sprintf("%s within %s if the speed is as stated and holds, which is not known well enough to say; ",
		plain.Count(p.d.Answer.Closing, "loop"), p.asked())
	if first.Closes() {
		return words + "the best of them is " + p.length(first)
	}
	return words + "by error and uncertainty together the best, though not one of them, is " + p.length(first)
}

// asked names the bound, or the bounds.
func (p *page) asked() string {
	return strings.Join(slices.Compact(report.Each(p.d.Query.Products, func(q spin.Product) string { return q.Bound().String() })), " and ")
}

// length tells how long a loop is, and its capture rate where there are several.
func (p *page) length(l spin.Loop) string {
	words := fmt.Sprintf("%s s on screen, %s", l.OnScreen().Decimal(3), plain.Count(l.Captured, "captured frame"))
	if len(p.d.Query.Captures) > 0 {
		words += " at " + shortRate(l.Clock.Capture)
	}
	return words
}

// loops has the table, and says what its columns mean and how many loops there were.
func (p *page) loops() {
	q := p.d.Query
	p.Section(fmt.Sprintf("LOOPS FROM %s s TO %s s ON SCREEN, BEST FIRST", q.From.Decimal(3), q.To.Decimal(3)))
	p.Add(p.d.table(), report.Note{Text: fmt.Sprintf("%s of whole frames looked at, %d within %s.", plain.Count(p.d.Answer.Considered, "loop"), p.d.Answer.Closing, p.asked())})
	if !q.Clock.PerScreen().Equal(exact.Int(1)) {
		return
	}
	for _, c := range q.Captures {
		if !c.Equal(q.Clock.Capture) {
			p.Bullets(report.Dim, "-", fmt.Sprintf("at %s every captured frame is shown once too, at a retime of %s", shortRate(c), q.Clock.Playback.Quo(c)))
		}
	}
}

// start tells what would close, and how a stand is begun, once for all of them.
func (p *page) start() {
	p.Section("WHAT WOULD CLOSE")
	for _, f := range p.d.Answer.Fits {
		p.Bullets(report.Good, "+", f.Text)
	}
	p.Section("THE START")
	p.Bullets(report.Dim, "-", spin.AnyFace+".", spin.MarkFace+".", spin.Settle+".")
}

// cautions are about stands; those of the rig stand in the plan.
func (p *page) cautions(stands bool) {
	p.Section("BEFORE IT MOVES")
	if stands {
		p.Bullets(report.Fair, "!", "A stand has a switch of its own: stopping the rig does not stop it. Keep its mains lead dry and clear of whatever turns.")
	}
	p.Bullets(report.Fair, "!", "Stand the product in the middle and turn it once by hand before the motor does: nothing may catch on the lens, the lamp or a cable.")
}

package program

import (
	"strconv"

	"seamrail/motion/base/fault"
	"seamrail/motion/controller/quantize"
	"seamrail/motion/controller/rs274"
	"seamrail/motion/spec/rig"
)

const (
	// gentleShare is the share of its greatest speed at which an axis goes to
	// the start: a tabletop rail that can do 400 mm/s takes ten seconds over
	// its length, time to see what it is about to meet.
	gentleShare = 0.1
	// fillSeconds is the dwell before the motion: it lets the controller's
	// buffers fill, so that the first blocks are not starved.
	fillSeconds = 0.5
	// dwellDecimals is how many decimals G4 words have: a microsecond.
	dwellDecimals = 6
	// longestLine is what NISTIR 6556 allows where the rig says nothing.
	longestLine   = 256
	secondsMinute = 60
)

// push queues one line that takes the time from what is covered to until, or
// keeps the fault that it does not fit.
func (p *Program) push(text []byte, until float64, moves bool) {
	if p.err != nil {
		return
	}
	if len(text) > p.longest {
		p.err = fault.List{{Quantity: "line " + strconv.Quote(string(text)),
			Value: strconv.Itoa(len(text)) + " characters", Bound: "must be at most the " + strconv.Itoa(p.longest) + " that the controller reads",
			Fit: "fewer decimals or axes would do"}}
		return
	}
	p.queue = append(p.queue, Line{Text: string(text), Round: p.number(), Start: p.covered, End: until,
		Moves: moves, Block: p.index, Aim: p.aimNow()})
	p.covered = until
	p.said = true
}

// line queues a line that takes no time.
func (p *Program) line(s string) { p.push([]byte(s), p.covered, false) }

// slabAims is how many aims are made at a time.
const slabAims = 128

// aimNow copies where the axes have been told to be.
func (p *Program) aimNow() []float64 {
	n := len(p.letters)
	if len(p.slab) < n {
		p.slab = make([]float64, n*slabAims)
	}
	aim := p.slab[:n:n]
	p.slab = p.slab[n:]
	for i := range p.teller.Axes {
		a := &p.teller.Axes[i]
		aim[i] = a.Units(a.Target)
	}
	return aim
}

// goToStart makes the modes and the way to the start, one axis at a time, so
// that each keeps to its own gentle speed.
func (p *Program) goToStart() {
	p.teller.Start(p.take.Rest)
	p.line("G21 G90")
	p.line("G94")
	for i := range p.teller.Axes {
		p.buf = p.word(append(p.buf[:0], "G1 "...), i)
		p.buf = p.teller.Feed.Append(append(p.buf, " F"...), p.maxSpeed[i]*gentleShare*secondsMinute)
		p.push(p.buf, p.covered, true)
	}
	p.open()
	if p.teller.Feed.Style == rig.InverseTime {
		p.line("G93")
	}
}

// motion makes the line of a block or of a dwell.
func (p *Program) motion(l *quantize.Line) {
	if !l.Moves {
		p.dwell(l.Seconds, l.Until)
		return
	}
	p.buf = append(p.buf[:0], "G1"...)
	for i := range p.teller.Axes {
		if a := &p.teller.Axes[i]; a.Target != a.Told {
			p.buf = p.word(append(p.buf, ' '), i)
		}
	}
	if p.teller.Feed.Round(l.Feed) == 0 && p.err == nil {
		p.err = fault.List{{
			Quantity: "feed word", Value: "of a block of " + strconv.FormatFloat(l.Seconds, 'g', 4, 64) + " s",
			Bound: "must not round to 0", Fit: "more decimals of the feed word would do",
		}}
		return
	}
	p.push(p.teller.Feed.Append(append(p.buf, " F"...), l.Feed), l.Until, true)
}

func (p *Program) dwell(sec, until float64) {
	p.buf = rs274.Append(append(p.buf[:0], "G4 P"...), sec, dwellDecimals)
	p.push(p.buf, until, false)
}

package words

import (
	"strconv"

	"seamrail/motion/fault"
	"seamrail/motion/rig"
	"seamrail/motion/segment"
	"seamrail/motion/word"
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
	// shortestDwell is the last of those decimals.
	shortestDwell = 1e-6
	// longestLine is what NISTIR 6556 allows where the rig says nothing.
	longestLine   = 256
	secondsMinute = 60
	// landSeconds is how long the last part of a step takes where motion ends.
	// A controller that drops moves below a step loses no more than this.
	landSeconds = 0.001
)

// line queues one line that takes the time from what is covered to until, or
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
		Moves: moves, Aim: p.aimNow()})
	p.covered = until
	p.said = true
}

// line queues a line that takes no time.
func (p *Program) line(s string) { p.push([]byte(s), p.covered, false) }

// slabAims is how many aims are made at a time.
const slabAims = 128

// aimNow copies where the axes have been told to be.
func (p *Program) aimNow() []float64 {
	n := len(p.axes)
	if len(p.slab) < n {
		p.slab = make([]float64, n*slabAims)
	}
	aim := p.slab[:n:n]
	p.slab = p.slab[n:]
	for i := range p.axes {
		aim[i] = p.axes[i].Units(p.axes[i].told)
	}
	return aim
}

// goToStart makes the modes and the way to the start, one axis at a time, so
// that each keeps to its own gentle speed.
func (p *Program) goToStart() {
	p.aim(p.take.Rest)
	p.line("G21 G90")
	p.line("G94")
	for i := range p.axes {
		a := &p.axes[i]
		p.buf = append(p.buf[:0], "G1 "...)
		p.buf = append(a.word(p.buf, p.decimals), " F"...)
		p.buf = p.feed.Append(p.buf, a.maxSpeed*gentleShare*secondsMinute)
		a.reach()
		p.push(p.buf, p.covered, true)
	}
	p.dwell(fillSeconds, p.covered)
	if p.feed.Style == rig.InverseTime {
		p.line("G93")
	}
}

// aim sets where every axis is to be.
func (p *Program) aim(end []float64) {
	for i := range p.axes {
		p.axes[i].aim(end[i])
	}
}

// block makes the line of one block. One in which no motor would step makes
// none, because controllers drop such lines and the time with them: its time
// goes to the next that moves, or to a dwell where the axes rest.
func (p *Program) block(b *segment.Block) {
	if b.Rest {
		p.settle()
	}
	sec := b.Seconds.Float()
	p.owed += sec
	p.told += b.Nominal.Float()
	p.now += sec
	p.aim(b.End)
	if b.Rest {
		p.settle()
	} else if p.steps() {
		p.move(p.told, p.now)
		p.owed, p.told = 0, 0
	}
}

// settle turns time that no motion has taken into a dwell, and lands the axes
// on the very place where they are to rest.
func (p *Program) settle() {
	if p.owed > 0 && p.astray() {
		land := min(p.owed, landSeconds)
		p.pause(p.told-land, p.now-land)
		p.move(land, p.now)
	} else {
		p.pause(p.told, p.now)
	}
	p.owed, p.told = 0, 0
}

// pause dwells, unless the time is one that a G4 word cannot hold.
func (p *Program) pause(sec, until float64) {
	if sec >= shortestDwell {
		p.dwell(sec, until)
	}
}

func (p *Program) dwell(sec, until float64) {
	p.buf = word.Append(append(p.buf[:0], "G4 P"...), sec, dwellDecimals)
	p.push(p.buf, until, false)
}

// move makes a G1 line of the axes whose words change.
func (p *Program) move(sec, until float64) {
	p.buf = append(p.buf[:0], "G1"...)
	for i := range p.axes {
		a := &p.axes[i]
		p.delta[i] = a.Units(a.target - a.told)
		if a.target != a.told {
			p.buf = a.word(append(p.buf, ' '), p.decimals)
		}
		a.reach()
	}
	f := p.feed.Value(sec, p.delta)
	if p.feed.Round(f) == 0 && p.err == nil {
		p.err = fault.List{{Quantity: "feed word of a block of " + strconv.FormatFloat(sec, 'g', 4, 64) + " s",
			Bound: "must not round to 0", Fit: "more decimals of the feed word would do"}}
		return
	}
	p.push(p.feed.Append(append(p.buf, " F"...), f), until, true)
}

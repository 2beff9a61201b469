// Package program turns a take into the lines of RS-274/NGC words that a
// controller reads, one at a time, so that they can be written to a file or
// sent as the controller takes them.
//
// The dialect is that of T. R. Kramer, F. M. Proctor and E. R. Messina, The
// NIST RS274NGC Interpreter - Version 3, NISTIR 6556, 2000,
// DOI 10.6028/NIST.IR.6556: numbers without exponent, at most 256 characters a
// line; in G93 an F word on every G1 line, a move ending in 1/F minutes; in G94
// F is in units a minute; G4 P in seconds.
package program

import (
	"seamrail/motion/base/exact"
	"seamrail/motion/controller/quantize"
	"seamrail/motion/controller/segment"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// Rounds that lines before frame 0 belong to.
const (
	Setup = -2 // modes and the way to the start
	RunUp = -1
)

// Line is one line for the controller.
type Line struct {
	Text string // without line end, at most Controller.LineLength characters
	// Round is Setup, RunUp, a round from 0 on, or, in the run-out and at the
	// end, the number of rounds of the take.
	Round int64
	// Start and End are the real seconds from frame 0 that the line's motion or
	// dwell covers; equal for lines that take no time of the take.
	Start, End float64
	Moves      bool
	// Block is the last block of its stage that the line takes time of.
	Block int
	Aim   []float64 // mm or degrees of each axis of the plan when it ends
}

// Program hands out the lines of a take of as many rounds as are asked for.
type Program struct {
	take     segment.Take
	paces    map[stage][]pace
	teller   *quantize.Quantizer
	letters  []byte
	maxSpeed []float64 // units/s
	decimals int
	longest  int
	period   float64
	opening  Opening
	grain    float64 // s of which dwells last whole multiples; 0 = any length

	stage  stage
	round  int64
	rounds int64 // of the take; unknown while negative
	index  int   // next block of the stage

	covered float64 // s from frame 0 up to which lines have taken time
	queue   []Line
	next    int
	said    bool // the round in hand has made a line
	err     error
	buf     []byte
	slab    []float64
}

// New returns the program of a take of unknown length: it goes on round after
// round until Finish. The trajectory must have passed Check.
func New(t *trajectory.Trajectory, take segment.Take) *Program {
	axes := make([]rig.Axis, t.AxisCount())
	for i := range axes {
		axes[i] = t.Axis(i)
	}
	return For(t, t.Rig().Controller, axes, take)
}

// For is New for a controller and axes that may differ from those of the rig.
func For(t *trajectory.Trajectory, c rig.Controller, axes []rig.Axis, take segment.Take) *Program {
	p := &Program{take: take, decimals: c.Decimals, longest: longestLine, rounds: -1, period: t.Period().Float(), grain: c.DwellGrain}
	p.paces = map[stage][]pace{runUp: pacesOf(take.RunUp), rounds: pacesOf(take.Round), runOut: pacesOf(take.RunOut)}
	if c.LineLength > 0 {
		p.longest = min(c.LineLength, longestLine)
	}
	advance := make([]exact.Rat, len(axes))
	for i := range axes {
		advance[i] = t.Advance(i)
		p.letters = append(p.letters, axes[i].Letter[0])
		p.maxSpeed = append(p.maxSpeed, axes[i].MaxSpeed)
	}
	p.teller = quantize.New(c, axes, advance, p.motion)
	for _, b := range take.RunUp {
		p.teller.Now -= b.Seconds.Float()
	}
	p.covered = p.teller.Now
	return p
}

// Next returns the next line, or false when there is none left or when one
// does not fit the controller: see Err.
func (p *Program) Next() (Line, bool) {
	for p.next == len(p.queue) {
		p.queue, p.next = p.queue[:0], 0
		if p.err != nil || p.stage == over {
			return Line{}, false
		}
		p.advance()
	}
	if p.err != nil {
		return Line{}, false
	}
	p.next++
	return p.queue[p.next-1], true
}

// Err returns why there are no more lines before the end.
func (p *Program) Err() error { return p.err }

// Finish ends the take after the round in hand, or after the first if none has
// begun: run-out and end follow.
func (p *Program) Finish() { p.FinishAfter(p.round + 1) }

// FinishAfter ends the take after so many rounds, at least 1, or after the
// round in hand if more have begun. It can bring the end nearer, not put it
// off.
func (p *Program) FinishAfter(n int64) {
	if p.stage < runOut && (p.rounds < 0 || n < p.rounds) {
		p.rounds = max(n, p.round+1)
	}
}

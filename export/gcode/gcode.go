// Package gcode writes a take as a program of RS-274/NGC words.
//
// The dialect is that of Kramer, Proctor and Messina, The NIST RS274NGC
// Interpreter - Version 3, NISTIR 6556, 2000: comments in parentheses that do
// not nest, numbers without exponent, at most 256 characters a line; in G93 an
// F word on every G1 line, a move ending in 1/F minutes; in G94 F is in units a
// minute along X Y Z when any of them moves, and in degrees a minute of the
// other axes when none does; G4 P in seconds.
package gcode

import (
	"bufio"
	"fmt"
	"io"

	"seamrail/motion/exact"
	"seamrail/motion/rig"
	"seamrail/motion/segment"
	"seamrail/motion/trajectory"
	"seamrail/motion/verify"
)

// Options says what the program holds.
type Options struct {
	Rounds    int64             // rounds of the loop; 0 = as many as the plan's take
	Segmenter segment.Segmenter // how the path is cut; nil = segment.EqualTime{}
}

// Write writes the program: the header and the cautions as comments, a gentle
// way to the start, a short dwell, the run-up, the rounds, the run-out and the
// end. Line length, decimals and feed style are the controller's. Positions of
// a round are the round's number times the exact advance plus the place in the
// round, never a sum. The error is the writer's, wrapped; or says which axis
// letter, option or line does not fit the format.
func Write(w io.Writer, t *trajectory.Trajectory, v verify.Verdict, opt Options) error {
	if opt.Rounds < 0 {
		return fmt.Errorf("program of %d rounds must have at least 1", opt.Rounds)
	}
	if opt.Rounds == 0 {
		opt.Rounds = int64(t.Plan().Rounds)
	}
	if opt.Segmenter == nil {
		opt.Segmenter = segment.EqualTime{}
	}
	if err := check(t); err != nil {
		return err
	}
	take, err := opt.Segmenter.Cut(t)
	if err != nil {
		return err
	}
	out := bufio.NewWriterSize(w, 1<<16)
	p := newProgram(out, t, take)
	p.comments(lines(t, v, opt))
	p.goToStart()
	p.take(opt.Rounds)
	p.finish()
	// A bufio.Writer keeps its first error and gives it back from Flush.
	if err := out.Flush(); p.err == nil {
		p.err = err
	}
	if p.err != nil {
		return fmt.Errorf("writing the program: %w", p.err)
	}
	return nil
}

// take writes the run-up, the rounds and the run-out.
func (p *program) take(rounds int64) {
	if p.style == rig.InverseTime {
		p.line("G93")
	}
	if len(p.blocks.RunUp) > 0 {
		p.comment("run-up")
		p.path(p.blocks.RunUp, 0)
	}
	for r := range rounds {
		if p.err != nil {
			return
		}
		p.comment(fmt.Sprintf("round %d of %d", r+1, rounds))
		p.path(p.blocks.Round, r)
	}
	if len(p.blocks.RunOut) > 0 {
		p.comment("run-out")
		p.path(p.blocks.RunOut, rounds-1)
	}
	p.settle()
}

// path writes blocks shifted by the advance of so many rounds.
func (p *program) path(blocks []segment.Block, rounds int64) {
	for i := range p.axes {
		p.axes[i].shift(rounds)
	}
	for i := range blocks {
		p.block(&blocks[i])
	}
}

// block writes one block. One in which no motor would step is not written,
// because controllers drop such lines and the time with them: its time goes to
// the next that moves, or to a dwell where the axes rest.
func (p *program) block(b *segment.Block) {
	if b.Rest {
		p.settle()
	}
	p.owed += b.Seconds.Float()
	p.aim(b.End)
	if b.Rest {
		p.settle()
	} else if p.steps() {
		p.move(p.owed)
		p.owed = 0
	}
}

// landSeconds is how long the last part of a step takes where motion ends. A
// controller that drops moves below a step loses no more than this.
const landSeconds = 0.001

// settle turns time that no motion has taken into a dwell, and lands the axes
// on the very place where they are to rest.
func (p *program) settle() {
	if p.owed > 0 && p.astray() {
		land := min(p.owed, landSeconds)
		p.pause(p.owed - land)
		p.move(land)
	} else {
		p.pause(p.owed)
	}
	p.owed = 0
}

// pause dwells, unless the time is one that a G4 word cannot hold.
func (p *program) pause(sec float64) {
	if sec >= shortestDwell {
		p.dwell(sec)
	}
}

func (p *program) finish() {
	if p.style == rig.InverseTime {
		p.line("G94")
	}
	p.line("M2")
}

func lines(t *trajectory.Trajectory, v verify.Verdict, opt Options) []string {
	c := t.Rig().Controller
	out := programLines(t, v)
	feed := "G93, F is one over the minutes a block takes"
	if c.Feed == rig.PerMinute {
		feed = "G94, F is mm a minute along X Y Z, or degrees a minute when none of them moves"
	}
	return append(out, "units: mm, degrees, seconds", "feed: "+feed,
		fmt.Sprintf("rounds: %d, %s s of filmed motion with run-up and run-out", opt.Rounds, seconds(t, opt.Rounds).Decimal(3)),
		"the first moves go to the start, one axis at a time: see that the way is clear")
}

func seconds(t *trajectory.Trajectory, rounds int64) exact.Rat {
	p := t.Plan()
	ramps := p.Loop.Clock.FrameTime(p.RunUp + p.RunOut)
	return ramps.Add(exact.Int(rounds).Mul(t.Period()))
}

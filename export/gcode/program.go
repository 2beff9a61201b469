package gcode

import (
	"bufio"
	"fmt"

	"seamrail/motion/controller/program"
	"seamrail/motion/controller/segment"
	"seamrail/motion/spec/rig"
)

// longestLine is what NISTIR 6556 allows where the rig says nothing.
const longestLine = 256

// printer writes lines, and comments that say what they belong to.
type printer struct {
	out     *bufio.Writer
	longest int
	runUp   bool // the take has one
	runOut  bool
	told    bool // the way to the start has been announced
}

func newProgram(out *bufio.Writer, c rig.Controller, k segment.Take) *printer {
	return &printer{out: out, longest: longestOf(c), runUp: len(k.RunUp) > 0, runOut: len(k.RunOut) > 0}
}

// longestOf is the longest line that a controller reads.
func longestOf(c rig.Controller) int {
	if c.LineLength > 0 {
		return min(c.LineLength, longestLine)
	}
	return longestLine
}

// line writes one line. A bufio.Writer keeps its first error for Flush.
func (p *printer) line(s string) {
	_, _ = p.out.WriteString(s)
	_ = p.out.WriteByte('\n')
}

// lines writes the lines of a take of so many rounds.
func (p *printer) lines(from *program.Program, rounds int64) error {
	from.FinishAfter(rounds)
	last := int64(program.Setup)
	for l, ok := from.Next(); ok; l, ok = from.Next() {
		if l.Round == program.Setup && l.Moves && !p.told {
			p.comment("to the start")
			p.told = true
		}
		if l.Text == program.Stop {
			p.comment("it waits here for cycle start, and then counts in")
		}
		for ; last < l.Round; last++ {
			p.announce(last+1, rounds)
		}
		p.line(l.Text)
	}
	return from.Err()
}

// announce says what the lines belong to that follow.
func (p *printer) announce(round, rounds int64) {
	switch {
	case round == program.RunUp && p.runUp:
		p.comment("run-up")
	case round == rounds && p.runOut:
		p.comment("run-out")
	case round >= 0 && round < rounds:
		p.comment(fmt.Sprintf("round %d of %d", round+1, rounds))
	}
}

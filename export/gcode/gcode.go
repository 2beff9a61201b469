// Package gcode writes a take as a program of RS-274/NGC words.
//
// The words are those of package program, the comments are in parentheses that
// do not nest.
package gcode

import (
	"bufio"
	"fmt"
	"io"

	"seamrail/export/header"
	"seamrail/motion/controller/ontime"
	"seamrail/motion/controller/program"
	"seamrail/motion/controller/segment"
	"seamrail/motion/cue/syncmark"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// Options says what the program holds.
type Options struct {
	CountIn   int64             // s from cycle start to the motion, at least; 0 = no more than buffers need
	Mark      *syncmark.Mark    // the sync mark; nil = none
	NoStop    bool              // do not wait for the operator before the motion
	Rounds    int64             // rounds of the loop; 0 = as many as the plan's take
	Segmenter segment.Segmenter // how the path is cut; nil = as ontime.Choose does
}

// Write writes the program: the header and the cautions as comments, a gentle
// way to the start, a stop, a dwell as long as the count-in, the run-up, the
// rounds, the run-out and the end. Line length, decimals and feed style are the controller's. Positions of
// a round are the round's number times the exact advance plus the place in the
// round, never a sum. The error is the writer's, wrapped; or says which axis
// letter, option or line does not fit the format.
func Write(w io.Writer, t *trajectory.Trajectory, head header.Head, opt Options) error {
	if opt.Rounds < 0 {
		return fmt.Errorf("program of %d rounds must have at least 1", opt.Rounds)
	}
	if opt.Rounds == 0 {
		opt.Rounds = t.Rounds()
	}
	if err := program.Check(t); err != nil {
		return err
	}
	chosen, err := cut(t, opt)
	if err != nil {
		return err
	}
	take := chosen.Take
	out := bufio.NewWriterSize(w, 1<<16)
	p := newProgram(out, t.Rig().Controller, take)
	p.comments(lines(t, head, opt, chosen.Expected))
	program := program.New(t, take)
	program.Open(opt.Opening())
	err = p.lines(program, opt.Rounds)
	// A bufio.Writer keeps its first error and gives it back from Flush.
	if broken := out.Flush(); err == nil {
		err = broken
	}
	if err != nil {
		return fmt.Errorf("writing the program: %w", err)
	}
	return nil
}

// cut returns the blocks of the take, and what is expected of them where that
// is known.
func cut(t *trajectory.Trajectory, opt Options) (ontime.Chosen, error) {
	switch s := opt.Segmenter.(type) {
	case nil:
		return ontime.ChooseOpened(t, opt.Rounds, opt.Opening())
	case ontime.Chosen:
		return s, nil
	}
	k, err := opt.Segmenter.Cut(t)
	return ontime.Chosen{Take: k}, err
}

func lines(t *trajectory.Trajectory, head header.Head, opt Options, expected ontime.Prediction) []string {
	c := t.Rig().Controller
	out := head.Lines("RS-274/NGC program")
	feed := "G93, F is one over the minutes a block takes"
	if c.Feed == rig.PerMinute {
		feed = "G94, F is mm a minute along X Y Z, or degrees a minute when none of them moves"
	}
	if expected.Rounds > 0 {
		for _, l := range header.Expected(expected) {
			out = append(out, "expected: "+l)
		}
		for _, f := range expected.Faults {
			out = append(out, "controller: "+f.String())
		}
	}
	return append(append(out, "units: mm, degrees, seconds", "feed: "+feed,
		fmt.Sprintf("rounds: %d, %s s of filmed motion with run-up and run-out", opt.Rounds, t.TakeTime(opt.Rounds).Decimal(3)),
		"the first moves go to the start, one axis at a time: see that the way is clear"),
		opt.start(t)...)
}

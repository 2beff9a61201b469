// Package exposures writes the schedule of a take frame by frame: one row a frame, with
// when it is moved to, settled and exposed, as comma-separated values (RFC 4180) under "#"
// lines.
package exposures

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"

	"seamrail/export/header"
	"seamrail/motion/base/exact"
	"seamrail/motion/plan/stepwise"
	"seamrail/motion/plan/trajectory"
)

// Write writes the table. Times are real seconds from the beginning of the first exposure,
// positions mm or degrees and motor steps. The error is the writer's, wrapped.
func Write(w io.Writer, t *trajectory.Trajectory, s *stepwise.Schedule, head header.Head) error {
	if _, err := w.Write(header.Write(nil, "# ", lines(head))); err != nil {
		return fmt.Errorf("writing the schedule: %w", err)
	}
	out := csv.NewWriter(w)
	_ = out.Write(columns(t)) // it keeps its first error
	for n := range s.Frames() {
		_ = out.Write(row(t, s, n))
	}
	out.Flush()
	if err := out.Error(); err != nil {
		return fmt.Errorf("writing the schedule: %w", err)
	}
	return nil
}

func lines(head header.Head) []string {
	return append(head.Lines("schedule of a take frame by frame, a row a frame"),
		"number, round, frame: in the take from 0, in which round, and in the loop",
		"opens_s, closes_s: when its exposure begins and ends, s from that of the first",
		"moves_s, settle_s: how long the moves to it last at least, and how long it is left to settle at least",
		"need_s: what it needs in all from the exposure before it: moves, controller, settling, hand, exposure, card",
		"per axis: where it stands, and the same in motor steps")
}

func columns(t *trajectory.Trajectory) []string {
	out := []string{"number", "round", "frame", "timecode", "opens_s", "closes_s", "moves_s", "settle_s", "need_s"}
	for i := range t.AxisCount() {
		a := t.Axis(i)
		name := header.Clean(a.Name)
		out = append(out, name+"_"+a.Unit(), name+"_steps")
	}
	return out
}

// decimals of times and places: a microsecond, a nanometre.
const decimals = 6

func row(t *trajectory.Trajectory, s *stepwise.Schedule, n int64) []string {
	f := s.Frame(n)
	moves := 0.0
	for _, l := range f.Legs {
		moves += l.Seconds
	}
	whole := func(v int64) string { return strconv.FormatInt(v, 10) }
	number := func(v float64) string { return strconv.FormatFloat(v, 'f', decimals, 64) }
	out := []string{
		whole(f.Number), whole(f.Round), whole(f.Index), t.Label(exact.Int(f.Index).Quo(t.Clock().PerScreen()).Floor().Whole()),
		f.Opens.Decimal(decimals), f.Opens.Add(s.ByFrame().Exposure).Decimal(decimals),
		number(moves), number(f.Settle), number(f.Need.Seconds() * float64(f.Need.Gaps)),
	}
	for i := range t.AxisCount() {
		steps := s.Steps(i, n)
		out = append(out, number(s.Unit(i, steps)), whole(steps))
	}
	return out
}

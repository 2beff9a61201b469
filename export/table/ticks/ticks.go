// Package ticks writes the tick table: the absolute step index of every axis
// at a fixed tick of time, as comma-separated values (RFC 4180) under "#"
// lines, for players that set a position at each beat of a timer.
package ticks

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"seamrail/export/header"
	"seamrail/motion/base/exact"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/verify/trace"
)

// DefaultTick is the tick unless told otherwise: 1 ms, at which a carriage at
// 200 mm/s and 80 steps/mm takes 16 steps.
var DefaultTick = exact.New(1, 1000)

var (
	shortest = exact.New(1, 1_000_000) // s; steps are known to the nanosecond
	longest  = exact.Int(3600)         // s; beyond it a table says nothing
)

// Options says what the table holds.
type Options struct {
	Tick   exact.Rat // real seconds between rows; 0 = DefaultTick
	Rounds int64     // rounds of the loop; 0 = as many as the plan's take
	Ramps  bool      // with the run-up before frame 0 and the run-out after the end
}

// Write writes the table. Row n holds the step indices at n ticks from frame 0,
// exactly: tick times are multiples, never sums, so no take is long enough to
// drift. Rows go on to the first tick at or after the end of the take. The
// error is the writer's, wrapped; or says that the tick is not within 1 µs to
// an hour or the rounds are below 0.
func Write(w io.Writer, t *trajectory.Trajectory, head header.Head, opt Options) error {
	opt, err := opt.filled(t)
	if err != nil {
		return err
	}
	out := bufio.NewWriterSize(w, 1<<16)
	buf := header.Write(nil, "# ", lines(head, opt))
	buf = append(buf, "tick,"+strings.Join(names(t), ",")+"\n"...)
	walk := newWalk(t, opt)
	for n := walk.first; n <= walk.last; n++ {
		walk.to(n)
		buf = walk.row(buf, n)
		if _, err := out.Write(buf); err != nil {
			break
		}
		buf = buf[:0]
	}
	// A bufio.Writer keeps its first error and gives it back from Flush.
	if err := out.Flush(); err != nil {
		return fmt.Errorf("writing the tick table: %w", err)
	}
	return nil
}

func (o Options) filled(t *trajectory.Trajectory) (Options, error) {
	if o.Tick.Sign() == 0 {
		o.Tick = DefaultTick
	}
	if o.Tick.Less(shortest) || longest.Less(o.Tick) {
		return o, fmt.Errorf("tick of %s s must be within 0.000001 s and %s s; %s s is the default",
			o.Tick.Decimal(9), longest, DefaultTick.Decimal(3))
	}
	if !countable(o.Tick) {
		return o, fmt.Errorf("tick of %s s must be a simpler fraction; %s s would do", o.Tick, o.Tick.Decimal(9))
	}
	if o.Rounds < 0 {
		return o, fmt.Errorf("tick table of %d rounds must have at least 1", o.Rounds)
	}
	if o.Rounds == 0 {
		o.Rounds = t.Rounds()
	}
	return o, nil
}

func lines(head header.Head, opt Options) []string {
	return append(head.Lines("tick table, absolute motor steps at a fixed tick"),
		fmt.Sprintf("rounds: %d", opt.Rounds),
		fmt.Sprintf("tick: %s s, real time; tick 0 is frame 0", opt.Tick),
		"columns: absolute step index of each axis, 0 is position 0")
}

func names(t *trajectory.Trajectory) []string {
	out := make([]string, t.AxisCount())
	for i := range out {
		out[i] = strings.NewReplacer(",", " ", `"`, "'").Replace(header.Clean(t.Axis(i).Name)) + "_steps"
	}
	return out
}

// walk follows the steps of a take from tick to tick.
type walk struct {
	stream      *trajectory.Stream
	next        trace.Step
	more        bool
	now         []int64 // absolute step index of each axis
	first, last int64   // ticks
	nanos       nanos
}

func newWalk(t *trajectory.Trajectory, opt Options) *walk {
	begin, end := exact.Int(0), t.Period().Mul(exact.Int(opt.Rounds))
	if opt.Ramps {
		up, out := t.RampTimes()
		begin, end = up.Neg(), end.Add(out)
	}
	k := &walk{
		stream: t.Steps(trajectory.StepOptions{Rounds: opt.Rounds, Ramps: opt.Ramps}),
		now:    starts(t, opt.Ramps),
		first:  begin.Quo(opt.Tick).Floor().Whole(),
		last:   end.Quo(opt.Tick).Ceil().Whole(),
	}
	k.nanos = newNanos(opt.Tick, k.first)
	k.next, k.more = k.stream.Next()
	return k
}

// starts returns the step index of each axis before the take's first step.
func starts(t *trajectory.Trajectory, ramps bool) []int64 {
	out := make([]int64, t.AxisCount())
	for i := range out {
		out[i] = t.StepIndex(i, 0)
		if up, _ := t.Ramps(i); ramps && up != nil {
			out[i] = int64(math.Floor(up.At(0).Pos*t.Axis(i).StepsPerUnit.Float() + 0.5))
		}
	}
	return out
}

// to takes all steps up to tick n, which is the one after the last asked for.
func (k *walk) to(n int64) {
	at := k.nanos.whole
	for k.more && (k.next.Nanos <= at || n == k.last) {
		k.now[k.next.Axis] = k.next.Position
		k.next, k.more = k.stream.Next()
	}
	k.nanos.advance()
}

func (k *walk) row(buf []byte, n int64) []byte {
	buf = strconv.AppendInt(buf, n, 10)
	for _, s := range k.now {
		buf = strconv.AppendInt(append(buf, ','), s, 10)
	}
	return append(buf, '\n')
}

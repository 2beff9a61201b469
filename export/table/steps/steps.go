// Package steps writes the step table: the time of every step pulse of a take,
// as comma-separated values (RFC 4180) under "#" lines. It holds one buffer and
// nothing that grows with the rounds.
package steps

import (
	"fmt"
	"io"
	"strconv"

	"seamrail/export/header"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/verify/trace"
)

// Unit is what the times are counted in.
type Unit int

// The units of time.
const (
	Nanoseconds  Unit = iota // whole ns, each within half a ns
	Microseconds             // whole µs, rounded from the ns
)

const nanosPerMicro = 1000

// String prints "ns" or "us".
func (u Unit) String() string {
	if u == Microseconds {
		return "us"
	}
	return "ns"
}

// Options says what the table holds.
type Options struct {
	Unit   Unit
	Rounds int64 // rounds of the loop; 0 = as many as the plan's take
	Ramps  bool  // with the run-up before frame 0 and the run-out after the end
}

// Write writes the table, in time order; steps of one nanosecond come in axis
// order. Times are real, from frame 0, negative in the run-up. The error is
// the writer's, wrapped; or says that the rounds are below 0.
func Write(w io.Writer, t *trajectory.Trajectory, head header.Head, opt Options) error {
	if opt.Rounds < 0 {
		return fmt.Errorf("step table of %d rounds must have at least 1", opt.Rounds)
	}
	if opt.Rounds == 0 {
		opt.Rounds = t.Rounds()
	}
	p := newPrinter(w, t, opt.Unit)
	p.buf = header.Write(p.buf, "# ", lines(head, opt))
	p.buf = append(p.buf, "time_"+opt.Unit.String()+",axis,direction,step,round\n"...)
	stream := t.Steps(trajectory.StepOptions{Rounds: opt.Rounds, Ramps: opt.Ramps})
	for s, ok := stream.Next(); ok && p.err == nil; s, ok = stream.Next() {
		p.print(s)
	}
	p.flush()
	if p.err != nil {
		return fmt.Errorf("writing the step table: %w", p.err)
	}
	return nil
}

func lines(head header.Head, opt Options) []string {
	return append(head.Lines("step table, one row a motor step"),
		fmt.Sprintf("rounds: %d", opt.Rounds),
		"time_"+opt.Unit.String()+": real time from frame 0",
		"axis: the controller's letter, or the axis' number in the list above from 0",
		"direction: 1 towards greater positions, -1 towards lesser",
		"step: absolute step index after the step, 0 is position 0",
		"round: from 0; -1 in the run-up, the number of rounds in the run-out")
}

// full is the size at which the buffer is handed on, room the longest a row
// can be: four 20-digit numbers, a letter, commas.
const (
	full = 1 << 16
	room = 96
)

type printer struct {
	w     io.Writer
	buf   []byte
	moves [][2]string // ",axis,-1," and ",axis,1," of each axis
	micro bool
	round int64
	tail  []byte // ",round\n" of round
	err   error
}

func newPrinter(w io.Writer, t *trajectory.Trajectory, u Unit) *printer {
	p := &printer{w: w, buf: make([]byte, 0, full+room), micro: u == Microseconds, tail: []byte(",0\n")}
	for i := range t.AxisCount() {
		name := t.Axis(i).Letter
		if name == "" {
			name = strconv.Itoa(i)
		}
		p.moves = append(p.moves, [2]string{"," + name + ",-1,", "," + name + ",1,"})
	}
	return p
}

func (p *printer) print(s trace.Step) {
	at := s.Nanos
	if p.micro {
		at = floorDiv(at+nanosPerMicro/2, nanosPerMicro)
	}
	if s.Round != p.round {
		p.round = s.Round
		p.tail = append(strconv.AppendInt(append(p.tail[:0], ','), s.Round, 10), '\n')
	}
	way := 0
	if s.Dir > 0 {
		way = 1
	}
	buf := strconv.AppendInt(p.buf, at, 10)
	buf = append(buf, p.moves[s.Axis][way]...)
	buf = strconv.AppendInt(buf, s.Position, 10)
	p.buf = append(buf, p.tail...)
	if len(p.buf) >= full {
		p.flush()
	}
}

func (p *printer) flush() {
	if p.err == nil {
		_, p.err = p.w.Write(p.buf)
	}
	p.buf = p.buf[:0]
}

func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

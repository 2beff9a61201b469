package ontime

import (
	"math"
	"slices"

	"seamrail/motion/controller/firmware"
	"seamrail/motion/controller/program"
	"seamrail/motion/controller/segment"
)

// heard is a line of a take and when it was run.
type heard struct {
	round      int64
	block      int
	moves      bool
	start, end float64          // s of the path, from frame 0
	edge       int              // that one of its slices is on; see firmware.Beat
	again      float64          // s that it takes longer than in the first round
	began      firmware.Instant // its motion, or for a rest the end of what was before
}

// witness watches a take being run, and holds it against the path at each
// captured frame.
type witness struct {
	m      *machine
	x      *ideal
	rounds int
	lines  []heard
	setup  int // lines before it
	met    bool
	// lead is by how much the first interval of the take is short: where the timer
	// stands when it begins shifts all of it alike. A witness that is aligned takes
	// the shift of another for its own.
	lead    firmware.Instant
	aligned bool
	zero    firmware.Instant // when the take began
	up      float64          // s from then to frame 0
	period  float64
	end     firmware.Instant // of all motion so far
	last    firmware.Slice   // that ran

	round, frame int              // that are looked at next
	next         firmware.Instant // when
	per, gain    []float64
	off          []Deviation
}

func (m *machine) witness(x *ideal, rounds int) *witness {
	w := &witness{m: m, x: x, rounds: rounds, next: firmware.Never}
	up, _ := m.t.RampTimes()
	w.up = up.Float()
	w.period = m.t.Period().Float()
	for i, a := range m.axes {
		w.off = append(w.off, deviationOf(a))
		w.per = append(w.per, a.StepsPerUnit.Float())
		w.gain = append(w.gain, m.advance[i].Float())
	}
	return w
}

// run runs the very lines of so many rounds of a take.
func (m *machine) run(k segment.Take, rounds int, x *ideal) (*witness, error) {
	return m.runSeen(m.witness(x, rounds), k)
}

// runSeen runs them before a witness.
func (m *machine) runSeen(w *witness, k segment.Take) (*witness, error) {
	if err := m.until.Err(); err != nil {
		return w, err
	}
	p := program.For(m.t, m.c, m.axes, k)
	p.Open(m.opening)
	p.FinishAfter(int64(w.rounds))
	program := func() (string, bool) {
		l, ok := p.Next()
		if ok {
			w.hear(&l)
		}
		return l.Text, ok
	}
	var at firmware.Counts
	for i, a := range m.axes {
		at[i] = m.board.StepsAt(i, a.Home)
	}
	w.last.Begins = at
	_, err := m.board.Play(program, m.letters, at, m.link, firmware.Watch{Slice: w.slice, Began: w.began, Stands: w.stands})
	if err == nil {
		err = p.Err()
	}
	w.look(firmware.Never)
	return w, err
}

func (w *witness) hear(l *program.Line) {
	if l.End == l.Start { // modes, the way to the start, the end
		if len(w.lines) == 0 {
			w.setup++
		}
		return
	}
	w.lines = append(w.lines, heard{round: l.Round, block: l.Block, moves: l.Moves, start: l.Start, end: l.End})
}

// line returns a line of the take by its number in the program, or nil.
func (w *witness) line(number int64) *heard {
	if i := int(number) - 1 - w.setup; i >= 0 && i < len(w.lines) {
		return &w.lines[i]
	}
	return nil
}

func (w *witness) began(number int64, at firmware.Instant) {
	if l := w.line(number); l != nil {
		l.began = at
		w.begin(at)
	}
}

func (w *witness) stands(number int64, from, _ firmware.Instant) {
	l := w.line(number)
	if l == nil {
		return
	}
	w.begin(from)
	l.began = w.end
	if w.end <= w.zero { // nothing has moved yet
		l.began = from
	}
}

// begin notes when the take begins.
func (w *witness) begin(at firmware.Instant) {
	if !w.met {
		w.met, w.zero = true, at
		w.due()
	}
}

// align takes in the lead of the first slice.
func (w *witness) align(lead firmware.Instant) {
	if !w.aligned {
		w.lead = lead
		return
	}
	w.zero += w.lead - lead
	w.due()
}

// due works out when the next captured frame is looked at.
func (w *witness) due() {
	if w.round == w.rounds {
		w.next = firmware.Never
		return
	}
	w.next = w.zero + firmware.Lasting(w.up+float64(w.round)*w.period+w.x.sec[w.frame])
}

// slice looks at the frames before and in a slice.
func (w *witness) slice(s *firmware.Slice, start firmware.Instant) {
	if l := w.line(s.Line); l != nil && s.Beat.Edge != 0 {
		l.edge = s.Beat.Edge
	}
	if w.met && w.end <= w.zero {
		w.align(s.Lead)
	}
	w.look(start)
	w.within(s, start)
	w.last, w.end = *s, start+s.Lasts()
}

// within looks at the frames while a slice runs.
func (w *witness) within(s *firmware.Slice, start firmware.Instant) {
	end := start + s.Lasts()
	for w.next < end {
		c := s.CountsAfter(len(w.per), s.PulsesBy(w.next-start))
		w.judge(&c)
	}
}

// look looks at the frames up to an instant, before which nothing moves.
func (w *witness) look(until firmware.Instant) {
	for w.next < until {
		c := w.last.CountsAfter(len(w.per), w.last.Pulses)
		w.judge(&c)
	}
}

// judge holds where the axes are against the path at the frame that is due.
func (w *witness) judge(c *firmware.Counts) {
	pos := w.x.pos[w.frame]
	for i := range w.off {
		e := float64(c[i])/w.per[i] - pos[i] - float64(w.round)*w.gain[i]
		if d := &w.off[i]; math.Abs(e) > math.Abs(d.Worst) {
			d.Worst, d.Seconds = e, w.x.sec[w.frame]+float64(w.round)*w.period
			d.Frame = int64(math.Round(d.Seconds * w.m.t.Clock().Capture.Float()))
		}
	}
	if w.frame++; w.frame == len(w.x.sec) {
		w.frame, w.round = 0, w.round+1
	}
	w.due()
}

// since is s of the path, from frame 0, at an instant if all is on time.
func (w *witness) since(at firmware.Instant) float64 { return (at - w.zero).Seconds() - w.up }

// late returns how late a line begins, s.
func (w *witness) late(l *heard) float64 { return w.since(l.began) - l.start }

// lateAtEnd is how late the last motion ends. A rest that follows on it holds
// nothing up.
func (w *witness) lateAtEnd() float64 {
	last := &w.lines[len(w.lines)-1]
	if last.moves {
		return w.since(w.end) - last.end
	}
	return w.since(last.began) - last.start
}

// prediction is what was seen, told for a take of so many rounds.
func (w *witness) prediction(rounds int64) Prediction {
	t := w.m.t
	p := Prediction{Rounds: int64(w.rounds), Ran: int64(w.rounds), RoundPlanned: w.period, Within: w.m.within, Axes: w.off}
	p.Planned = t.TakeTime(p.Rounds).Float()
	n := w.rounds
	p.Blocks = w.first(1) - w.first(0)
	p.begun = w.lateWith(0)
	p.Late = w.lateWith(n)
	p.RoundLate = p.Late - w.lateWith(n-1)
	if n > 2 { // the first differ, those after them do by some ticks, and the end of the last is seen by its last step
		p.RoundLate = (w.lateWith(n-1) - w.lateWith(n/2)) / float64(n-1-n/2)
	}
	p.RoundExecuted = w.period + p.RoundLate
	p.Executed = p.Planned + w.lateAtEnd()
	return p.over(rounds)
}

// first returns the first line of a round; the first after them all, which may be
// beyond the last, where they are over.
func (w *witness) first(round int) int {
	if i := slices.IndexFunc(w.lines, func(l heard) bool { return l.round == int64(round) }); i >= 0 {
		return i
	}
	return len(w.lines)
}

// lateWith returns how late a round begins, or all of them end, s.
func (w *witness) lateWith(round int) float64 {
	if i := w.first(round); i < len(w.lines) {
		return w.late(&w.lines[i])
	}
	return w.lateAtEnd()
}

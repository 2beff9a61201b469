package drive

import (
	"strconv"
	"strings"
	"time"

	"seamrail/motion/controller/program"
)

// stream is the lines of one pass on their way to a talker.
type stream struct {
	pass      *pass
	source    Source
	held      *program.Line // made, and not sent yet
	over      bool          // no more lines come
	synced    bool          // the line that waits for the end has been sent
	ended     bool          // and answered
	paused    bool          // nothing is sent for now
	fill      float64
	gone      int           // lines sent
	first     *program.Line // of the motion, once it has been answered
	dwelt     span          // when the dwell before it was over
	read      []span        // when the lines were answered that it had read before the motion began, or may have
	before    int           // of them, those before the first of the motion
	count     int           // of them, those that it probably had; 0 = not known yet
	moves     int           // of them, moves
	ahead     lookahead     // the blocks that it holds by what was sent
	fillsFrom time.Time     // when the dwell before the motion was sent
	lags      float64       // s by which blocks were taken later than there was room by what was sent
	slow      float64       // s that the pass is late, when that was seen last
	lag       float64       // the same, or below 0 how early
	resumed   time.Time     // when it was told to go on after a hold
	unheeded  int           // reports asked for in a row that have not come
	seenAt    time.Time     // when it was
	taken     int64         // lines answered since then
	round     int64         // that they are in
	full      bool          // the next line that it read made it move
	opened    bool          // all that is known of the beginning is

	soonest time.Time // before which the motion cannot have begun
	last    span      // when the line answered last was answered
	rested  bool      // it was a dwell
	aim     []float64 // of the last line answered, or nil
}

// closes tells whether a line is for the end of a program file: modes, and a
// program end that would make the controller forget where it counts from
// (NISTIR 6556, M2).
func closes(l program.Line) bool { return l.Round >= 0 && l.Start == l.End && !l.Moves }

// dwell returns the seconds of a dwell line, or 0.
func dwell(text string) float64 {
	p, ok := strings.CutPrefix(text, "G4 P")
	if !ok {
		return 0
	}
	s, err := strconv.ParseFloat(p, 64)
	if err != nil {
		return 0
	}
	return s
}

// feed sends lines as long as there is room.
func (t *talker) feed(p *pass) error {
	s := &t.stream
	for !s.paused && t.failure == nil {
		if s.held == nil {
			if err := t.pull(); err != nil {
				return err
			}
		}
		if s.held == nil || !t.room(len(s.held.Text)+1) {
			break
		}
		t.putLine(p, *s.held)
		s.held = nil
		t.counter.ends(t, p)
	}
	p.fill = float64(t.bytes) / float64(max(t.controller.ReceiveBuffer, t.bytes, 1))
	return nil
}

// pull makes the next line, or the one that waits for the end.
func (t *talker) pull() error {
	s := &t.stream
	if s.over {
		if !s.synced {
			s.synced = true
			s.held = &program.Line{Text: syncLine, Round: t.engine.pass.rounds, Start: t.engine.pass.until, End: t.engine.pass.until}
		}
		return nil
	}
	line, ok := s.source.Next()
	if !ok {
		if err := s.source.Err(); err != nil {
			return failed(Unplanned, "%v", err)
		}
	}
	if !ok || closes(line) {
		s.over = true
		if ok { // its round is how many there were
			s.pass.rounds, s.pass.total = line.Round, line.Round
		}
		return t.pull()
	}
	if err := t.fits(line); err != nil {
		return err
	}
	s.held = &line
	return nil
}

func (t *talker) putLine(p *pass, line program.Line) {
	p.until = max(p.until, line.End)
	if line.Round >= 0 && (p.total == 0 || line.Round < p.total) && !t.stream.over {
		p.rounds = max(p.rounds, line.Round+1)
	}
	t.stream.gone++
	by := t.promptly(len(line.Text) + 1)
	if t.stream.fillsFrom.IsZero() && line.Round == program.Setup && dwell(line.Text) > 0 {
		t.stream.fillsFrom = t.now
	}
	if !t.stream.fillsFrom.IsZero() {
		by += seconds(t.lasts(t.stream.fill))
	}
	if dwells(line) { // it is answered when it is over
		by += seconds(t.lasts(dwell(line.Text)))
	}
	t.put(line.Text, by, &line)
	was := &t.flight[len(t.flight)-1]
	was.room, was.roomy = t.stream.ahead.next(&line, t.mostBlocks())
}

// finish ends the program after the round in hand: the one that lines are being
// made for.
func (t *talker) finish(p *pass) {
	p.total = max(p.rounds, 1)
	t.stream.source.FinishAfter(p.total)
}

// done tells whether all has been carried out.
func (t *talker) done(*pass) bool { return t.stream.ended }

// last returns where the axes stand, by report where there are reports.
func (t *talker) last(*pass) ([]float64, bool) {
	if t.controller.Status != 0 {
		from := t.now
		idle, err := t.until(patience, func() bool { return !t.before.Before(from) && t.statusAt.After(from) && t.status.is("Idle") })
		at, ok := t.position()
		return at, ok && idle && err == nil
	}
	if len(t.flight) > 0 || t.stream.aim == nil {
		return nil, false
	}
	return t.stream.aim, true
}

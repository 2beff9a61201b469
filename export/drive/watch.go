package drive

import (
	"slices"
	"time"
)

// pollEvery is how often a report is asked for while something moves: often
// enough to see a carriage at 400 mm/s every 40 mm, and under one byte in a
// thousand on the wire.
const pollEvery = 100 * time.Millisecond

// tick asks for reports and notices answers that are late.
func (t *lineController) tick() {
	if t.polls() && !t.now.Before(t.nextPoll()) {
		t.askStatus()
	}
	// What has come and was not looked at yet may be the answer.
	if len(t.flight) > 0 && t.nothing && !t.now.Before(t.answerBy()) {
		t.late(t.flight[0])
	}
	if !t.unheard.IsZero() && t.now.Sub(t.unheard) > patience {
		t.fail(Silent, "it has not answered for %v", t.now.Sub(t.unheard).Round(time.Millisecond))
	}
}

// polls tells whether reports are asked for now: not while settings are printed,
// behind which they would wait.
func (t *lineController) polls() bool {
	return t.every > 0 && t.controller.Status != 0 && t.ear == nil && (!t.timing() || t.compares())
}

// nextPoll is when the next report is asked for. One is asked for at a time, unless
// it seems to be lost: on a slow wire reports would pile up in front of the answers.
func (t *lineController) nextPoll() time.Time {
	if len(t.asks) > 0 {
		return t.askedAt.Add(max(t.every, overdue))
	}
	return t.askedAt.Add(t.every)
}

// compares tells whether it is time for the report that compares the controller's
// receive buffer with what it has been sent, while it dwells before the motion and
// the lines behind that wait: see ledger.
func (t *lineController) compares() bool {
	s := &t.stream
	at := s.compareAt()
	return !at.IsZero() && t.askedAt.Before(s.fillsFrom) && !t.now.Before(at) && t.now.Before(at.Add(seconds(s.fill/4)))
}

// compareAt is a quarter into the dwell, where there is time enough for a report
// to be gone before it ends; else no time.
func (s *stream) compareAt() time.Time {
	if s.pass == nil || s.fillsFrom.IsZero() || s.opened || seconds(s.fill/2) < s.pass.way.bytes(reportBytes)+endGrace {
		return time.Time{}
	}
	return s.fillsFrom.Add(seconds(s.fill / 4))
}

// dwelling tells whether a line is in flight that lets time pass. Reports may wait
// meanwhile: boards that dwell in grains look for them once in a grain.
func (t *lineController) dwelling() bool {
	return slices.ContainsFunc(t.flight, func(s sent) bool { return dwell(s.text) > 0 })
}

const (
	// reportBytes is what a report takes on the wire, with all that boards put in.
	reportBytes = 80
	// endGrace is how long after it was due the end of a pass is waited for before
	// a report is asked for: above what the way and the lines take, and short
	// enough for two reports within half a second of a lost answer.
	endGrace = 50 * time.Millisecond
)

// timing tells whether the answer is awaited that tells when a pass begins or
// ends: 60 bytes in front of it would take 5 ms.
func (t *lineController) timing() bool {
	s, p := &t.stream, t.engine.pass
	if p == nil || s.paused || s.ended || p.zero.IsZero() {
		return p != nil && !s.paused && !s.ended
	}
	if !s.synced {
		return false
	}
	end := p.when(p.until + s.slow + t.controller.IdleDelay)
	unsure := time.Duration(worstPace * float64(end.Sub(later(s.seenAt, p.zero))))
	return t.now.After(end.Add(-unsure-t.way.bytes(reportBytes)-endGrace)) && t.now.Before(end.Add(unsure+endGrace))
}

func (t *lineController) askStatus() {
	t.stream.unheeds(t)
	t.out.hurry(t.controller.Status)
	t.askedAt = t.now
	if len(t.asks) > 0 && t.now.Sub(t.asks[0].at) > patience {
		t.asks = t.asks[:0] // the oldest was lost
	}
	quiet := !t.dwelling() && len(t.asks) == 0 && len(t.out.urgent) == 1 && !t.now.Before(later(t.way.across, t.strays))
	t.asks = append(t.asks, asking{at: t.now, lined: t.out.lined, quiet: quiet, after: t.way.count})
	if t.unheard.IsZero() {
		t.unheard = t.now
	}
}

// answerBy is when the oldest line should have been answered.
func (t *lineController) answerBy() time.Time {
	s := t.flight[0]
	if s.line != nil {
		return t.stream.answerBy(t, s)
	}
	return s.by
}

// late says what is known of an answer that did not come.
func (t *lineController) late(s sent) {
	if t.controller.Status != 0 && t.before.After(s.at) && t.now.Sub(t.before) < overdue {
		t.fail(Unmatched, "no answer to line %d, %q, though it still reports: an answer was lost", s.number, s.text)
		return
	}
	t.fail(Silent, "no answer to line %d, %q, for %v", s.number, s.text, t.now.Sub(s.at).Round(time.Millisecond))
}

func (t *lineController) due() time.Time {
	due := t.now.Add(never)
	if t.polls() {
		due = t.nextPoll()
	}
	if at := t.stream.compareAt(); t.now.Before(at) {
		due = earlier(due, at)
	}
	if len(t.flight) > 0 && t.failure == nil {
		due = earlier(due, t.answerBy())
	}
	return due
}

package drive

import (
	"time"
)

// pollEvery is how often a report is asked for while something moves: often
// enough to see a carriage at 400 mm/s every 40 mm, and under one byte in a
// thousand on the wire.
const pollEvery = 100 * time.Millisecond

// tick asks for reports and notices answers that are late.
func (t *talker) tick() {
	if t.polls() && !t.now.Before(t.askedAt.Add(t.every)) {
		t.askStatus()
	}
	if len(t.flight) > 0 && !t.now.Before(t.answerBy()) {
		t.late(t.flight[0])
	}
	if !t.unheard.IsZero() && t.now.Sub(t.unheard) > patience {
		t.fail(Silent, "it has not answered for %v", t.now.Sub(t.unheard).Round(time.Millisecond))
	}
}

// polls tells whether reports are asked for now. Where a pass begins and ends
// they are not: 60 bytes in front of the answer that tells when would take 5 ms.
func (t *talker) polls() bool {
	s, p := &t.stream, t.engine.pass
	timing := p != nil && !s.paused && !s.ended &&
		(p.zero.IsZero() || s.synced && t.now.Before(p.when(p.until).Add(patience/4)))
	return t.every > 0 && t.controller.Status != 0 && !timing
}

func (t *talker) askStatus() {
	t.out.hurry(t.controller.Status)
	t.askedAt = t.now
	if len(t.asks) > 0 && t.now.Sub(t.asks[0].at) > patience {
		t.asks = t.asks[:0] // the oldest was lost
	}
	quiet := len(t.asks) == 0 && len(t.out.urgent) == 1 && !t.now.Before(later(t.way.across, t.strays))
	t.asks = append(t.asks, asking{at: t.now, lined: t.out.lined, quiet: quiet, after: t.way.count})
	if t.unheard.IsZero() {
		t.unheard = t.now
	}
}

// answerBy is when the oldest line should have been answered.
func (t *talker) answerBy() time.Time {
	s := t.flight[0]
	if s.line != nil {
		return t.stream.answerBy(t, s)
	}
	return s.by
}

// late says what is known of an answer that did not come.
func (t *talker) late(s sent) {
	if t.controller.Status != 0 && t.statusAt.After(s.at) && t.now.Sub(t.statusAt) < patience {
		t.fail(Unmatched, "no answer to line %d, %q, though it still reports: an answer was lost", s.number, s.text)
		return
	}
	t.fail(Silent, "no answer to line %d, %q, for %v", s.number, s.text, t.now.Sub(s.at).Round(time.Millisecond))
}

func (t *talker) due() time.Time {
	due := t.now.Add(never)
	if t.polls() {
		due = t.askedAt.Add(t.every)
	}
	if len(t.flight) > 0 && t.failure == nil {
		due = earlier(due, t.answerBy())
	}
	return due
}

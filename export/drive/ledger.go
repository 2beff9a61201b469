package drive

import "time"

// ledger holds what a controller reports of its receive buffer against what it
// has been sent and has answered. Where an answer is lost and others come, each of
// those is taken for the one before it; the buffer then lacks a line that nobody
// has told of.
type ledger struct {
	empty int   // bytes free when it holds none; 0 = not known yet
	sent  int64 // bytes of lines on the wire then
	said  int64 // and of lines answered
	alive bool  // it has told of another number
	fair  int   // reports in a row that agreed while it held something
	off   int   // and that did not
}

const (
	// fairReports is how many reports must agree before one that does not counts
	// on a controller whose buffer is not the one of the rig file.
	fairReports = 3
	// offReports is how many in a row must disagree: noise changes a digit of one.
	offReports = 2
	// workWait is how long a line may be in work for which there is room: above
	// what the slowest boards need for one, below what a line is on a slow wire.
	workWait = 10 * time.Millisecond
)

// reckon takes in the report in hand, which was asked for so. A report is answered
// in the order of the wire: all that went before the asking has reached it, and
// all answers before the report have been heard.
func (t *talker) reckon(a asking) {
	l := &t.ledger
	if t.idles(a) {
		t.missing()
		return
	}
	switch {
	case t.status.bytes < 0:
		return
	case a.quiet && len(t.flight) == 0:
		*l = ledger{empty: t.status.bytes, sent: a.lined, said: t.said, alive: l.alive, fair: l.fair}
		return
	case l.empty == 0 || len(t.flight) == 0:
		return
	}
	used := int64(l.empty - t.status.bytes)
	l.alive = l.alive || used > 0
	open := (a.lined - l.sent) - (t.said - l.said)
	switch inWork := open - used; {
	case inWork > int64(t.flight[0].bytes), inWork == int64(t.flight[0].bytes) && t.shouldHave(t.flight[0], a):
		l.off++
	default:
		l.off = 0
		if used > 0 {
			l.fair++
		}
	}
	if t.trusted() {
		t.missing()
	}
}

// missing ends the pass if reports have disagreed often enough.
func (t *talker) missing() {
	if t.ledger.off >= offReports && !t.expected {
		s := t.flight[0]
		t.fail(Unmatched, "line %d, %q, is done by what it reports, and nothing was heard of that: an answer was lost", s.number, s.text)
	}
}

// idles tells whether it does nothing, and has lines that it should do.
func (t *talker) idles(a asking) bool {
	n := len(t.flight)
	if n == 0 || !t.status.is("Idle") || t.stream.paused {
		return false
	}
	for _, s := range t.flight {
		if s.line == nil || dwell(s.text) > 0 { // of which it may report nothing
			return false
		}
	}
	if last := t.flight[n-1]; last.across.IsZero() || a.at.Sub(last.across) < workWait {
		return false
	}
	t.ledger.off++
	return true
}

// shouldHave tells whether a line that is in work should have been answered when
// a report was asked for: there is room for its block, and it lets no time pass.
func (t *talker) shouldHave(s sent, a asking) bool {
	if s.line == nil || !s.line.Moves || t.status.blocks < 1 || t.stream.paused || s.across.IsZero() {
		return false
	}
	return a.at.Sub(s.across) > workWait
}

// trusted tells whether what it reports of its buffer can be relied on: it is the
// buffer that the rig file has, or has agreed with what is known.
func (t *talker) trusted() bool {
	l, size := &t.ledger, t.controller.ReceiveBuffer
	return l.alive && (l.empty == size || l.empty == size-1 || l.fair >= fairReports)
}

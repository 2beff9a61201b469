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
	off   int   // reports in a row that do not agree
	// agrees tells that one has in this pass, while the controller dwelt and all
	// but the dwell was in its buffer. Boards that take lines out of it before
	// they are their turn, or tell something else, never do.
	agrees bool
}

const (
	// offReports is how many in a row must disagree: noise changes a digit of one.
	offReports = 2
	// workWait is how long a line may be in work for which there is room: above
	// what the slowest boards need for one, below what a line is on a slow wire.
	workWait = 10 * time.Millisecond
)

// reckon takes in the report in hand, which was asked for so. A report is answered
// in the order of the wire: all that went before the asking has reached it, and
// all answers before the report have been heard.
func (t *lineController) reckon(a asking) {
	l := &t.ledger
	if t.idles(a) {
		t.missing()
		return
	}
	switch {
	case t.status.bytes < 0:
		return
	case a.quiet && len(t.flight) == 0:
		*l = ledger{empty: t.status.bytes, sent: a.lined, said: t.said, agrees: l.agrees}
		return
	case l.empty == 0 || len(t.flight) == 0:
		return
	}
	used := int64(l.empty - t.status.bytes)
	open := (a.lined - l.sent) - (t.said - l.said)
	first := t.flight[0]
	inWork, whole := open-used, int64(first.bytes)
	if inWork > whole || inWork == whole && t.shouldHave(first, a) {
		l.off++
	} else {
		l.off = 0
	}
	l.agrees = l.agrees || dwell(first.text) > 0 && inWork == whole && used > 0
	if l.agrees {
		t.missing()
	}
}

// missing ends the pass if reports have disagreed often enough.
func (t *lineController) missing() {
	if t.ledger.off >= offReports && !t.expected {
		s := t.flight[0]
		t.fail(Unmatched, "line %d, %q, is done by what it reports, and nothing was heard of that: an answer was lost", s.number, s.text)
	}
}

// idles tells whether it does nothing, and has lines that it should do.
func (t *lineController) idles(a asking) bool {
	n := len(t.flight)
	if n == 0 || !t.status.is("Idle") || t.stream.paused {
		return false
	}
	if t.dwelling() || t.flight[0].line == nil { // of which it may report nothing
		return false
	}
	if last := t.flight[n-1]; last.across.IsZero() || a.at.Sub(last.across) < workWait {
		return false
	}
	t.ledger.off++
	return true
}

// shouldHave tells whether a line that is in work should have been answered when
// a report was asked for: there is room for its block, and it lets no time pass.
func (t *lineController) shouldHave(s sent, a asking) bool {
	if s.line == nil || !s.line.Moves || t.status.blocks < 1 || t.stream.paused || s.across.IsZero() {
		return false
	}
	return a.at.Sub(later(s.across, t.stream.last.at)) > workWait // it waited for those before it
}

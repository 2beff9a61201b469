package drive

import (
	"time"
)

// Beat is one beat of a count that tells a hand when to move.
type Beat struct {
	At   float64 // s from frame 0 of the take
	Text string  // what it is about
	Left int64   // beats still to come; 0 is now
}

// staleBeat is how late a beat may be told: a tenth of a second later it would
// lead the hand astray.
const staleBeat = 100 * time.Millisecond

// beats are those of one pass, on their way to the operator.
type beats struct {
	e    *engine
	pull func() (Beat, bool)
	stop func()
	next Beat
	more bool
	zero time.Time // when frame 0 is expected, until the motion tells
}

// newBeats begins the beats of a pass of so many rounds, or none.
func newBeats(e *engine, rounds int64) *beats {
	b := &beats{e: e, stop: func() {}}
	if e.Beats != nil && e.Call != nil {
		b.pull, b.stop = e.Beats(rounds)
		b.next, b.more = b.pull()
	}
	return b
}

// due is when the next beat is; a time far off where none is known.
func (b *beats) due(p *pass) time.Time {
	switch {
	case !b.more, p != nil && !p.pausedAt.IsZero():
		return b.e.now.Add(never)
	case p != nil && !p.zero.IsZero():
		return p.when(b.next.At)
	case b.zero.IsZero():
		return b.e.now.Add(never)
	}
	return b.zero.Add(seconds(b.next.At))
}

// tick tells the beats that are due.
func (b *beats) tick(p *pass) {
	for due := b.due(p); b.more && !b.e.now.Before(due); due = b.due(p) {
		if b.e.now.Sub(due) <= staleBeat {
			b.e.Call(b.next)
		}
		b.next, b.more = b.pull()
	}
}

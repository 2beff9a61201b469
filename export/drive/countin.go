package drive

import "time"

// caution shows what the rig file warns of and waits for a deliberate yes.
func (e *engine) caution() error {
	if e.Confirmed {
		return nil
	}
	e.enter(Cautioning)
	for _, c := range e.Trajectory.Rig().Cautions {
		e.Observer.Say(c)
	}
	for {
		r, err := e.next()
		if err != nil {
			return err
		}
		switch r.Kind {
		case Confirm:
			return nil
		case Decline:
			return errDeclined
		}
	}
}

// beat is the time between two beats of a count-in.
const beat = time.Second

// countIn counts the beats down to the beginning of the motion, up to the lead
// before it that the controller needs. The pass tells beat 0 itself.
func (e *engine) countIn(p *pass, lead time.Duration) error {
	in := time.Duration(e.CountIn) * beat
	if e.Sync != nil {
		in = max(in, seconds(e.Sync.Before)+dark)
	}
	if in <= 0 {
		p.beats.zero = e.now.Add(lead + seconds(e.runUp))
		return nil
	}
	e.enter(Counting)
	begins := e.now.Add(in)
	p.beats.zero = begins.Add(seconds(e.runUp))
	feed := begins.Add(-lead)
	list := e.markBefore(p, begins)
	for n := e.CountIn; n > 0; n-- {
		count := func() error { e.Observer.Count(n); return nil }
		list = append(list, due{earlier(begins.Add(-time.Duration(n)*beat), feed), count})
	}
	return e.onTime(append(list, due{feed, func() error { return nil }}), p.beats)
}

// sleep waits for an instant, and tells the beats until then. A stop or a no
// ends it.
func (e *engine) sleep(until time.Time, b *beats) error {
	for e.now.Before(until) {
		if err := e.wait(earlier(until, b.due(nil))); err != nil {
			return err
		}
		b.tick(nil)
		for _, r := range e.requests {
			if ends(r) || r.Kind == Decline {
				e.requests = nil
				return errStopped
			}
		}
		e.requests = e.requests[:0]
	}
	return nil
}

// Beat is one beat of a count that tells a hand when to move.
type Beat struct {
	At   float64 // s from frame 0 of the take
	Text string  // what it is about
	Left int64   // beats still to come; 0 is now
}

// Coming is a beat that is to come.
type Coming struct {
	Beat
	In float64 // s until then
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

// comes is the beat to come, and in how many s; nil where none is known.
func (b *beats) comes(p *pass) *Coming {
	if b == nil || !b.more {
		return nil
	}
	return &Coming{Beat: b.next, In: max(b.next.At-p.sec(), 0)}
}

package drive

import (
	"time"
)

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
	if e.CountIn <= 0 {
		p.beats.zero = e.now.Add(lead + seconds(e.runUp))
		return nil
	}
	e.enter(Counting)
	begins := e.now.Add(time.Duration(e.CountIn) * beat)
	p.beats.zero = begins.Add(seconds(e.runUp))
	for n := range e.CountIn {
		e.Observer.Count(e.CountIn - n)
		next := begins.Add(-time.Duration(e.CountIn-n-1) * beat)
		if err := e.sleep(earlier(next, begins.Add(-lead)), p.beats); err != nil {
			return err
		}
	}
	return nil
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

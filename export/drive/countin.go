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
func (e *engine) countIn(lead time.Duration) error {
	if e.CountIn <= 0 {
		return nil
	}
	e.enter(Counting)
	begins := e.now.Add(time.Duration(e.CountIn) * beat)
	for n := range e.CountIn {
		e.Observer.Count(e.CountIn - n)
		next := begins.Add(-time.Duration(e.CountIn-n-1) * beat)
		if err := e.sleep(earlier(next, begins.Add(-lead))); err != nil {
			return err
		}
	}
	return nil
}

// sleep waits for an instant. A stop or a no ends it.
func (e *engine) sleep(until time.Time) error {
	for e.now.Before(until) {
		if err := e.wait(until); err != nil {
			return err
		}
		for _, r := range e.requests {
			if r.Kind == Stop || r.Kind == Quit || r.Kind == Decline {
				e.requests = nil
				return errStopped
			}
		}
		e.requests = e.requests[:0]
	}
	return nil
}

package drive

import (
	"errors"
	"time"

	"seamrail/motion/spec/rig"
)

const (
	// restEvery is how often a report is asked for while waiting for rest.
	restEvery = 50 * time.Millisecond
	// leftWait is how long what a run before has left moving may take to end.
	leftWait = 6 * time.Second
	// restMargin is how much longer than planned motion may go on after the
	// last line that was sent.
	restMargin = 100 * time.Millisecond
)

// slow holds, on the wire before all else, or where the controller has no such
// byte stops feeding it.
func (t *talker) slow() {
	t.stream.paused = true
	if t.controller.Hold != 0 {
		t.out.hurry(t.controller.Hold)
	}
	if p := t.engine.pass; p != nil && p.pausedAt.IsZero() {
		p.held, p.pausedAt = p.held || !t.calming, t.now
	}
}

// crash resets the controller, if it can.
func (t *talker) crash() {
	t.out.forget()
	if t.controller.Abort == 0 {
		t.Observer.Say("it has no abort byte: cut motor power if it must not go on")
		return
	}
	t.crashed, t.expected, t.greeted = true, true, false
	t.out.hurry(t.controller.Abort)
	t.empty()
}

// empty forgets the lines in flight: the controller has.
func (t *talker) empty() {
	if len(t.asks) > 0 {
		t.strays = t.now.Add(chatter) // reports may come yet that nobody asks for now
	}
	t.flight, t.bytes, t.asks = t.flight[:0], 0, t.asks[:0]
	t.out.forget()
}

// rest waits until nothing moves.
func (t *talker) rest() error {
	if t.controller.Hold == 0 && !t.crashed {
		return t.drain()
	}
	if t.controller.Status == 0 {
		_, err := t.until(t.slowest(), func() bool { return t.crashed })
		return err
	}
	if p := t.engine.pass; p != nil && !t.crashed {
		t.Observer.Say(heldBack(len(t.flight), p.until-p.sec(), t.slowest()))
	}
	t.every = restEvery
	defer func() { t.every = pollEvery }()
	from := t.now
	limit := t.slowest() + patience
	ok, err := t.until(limit, func() bool {
		return t.crashed || !t.before.Before(from) && t.statusAt.After(from) && t.status.resting()
	})
	if err == nil && !ok {
		err = failed(Silent, "it has not come to rest within %v of the hold", limit.Round(time.Millisecond))
	}
	return err
}

// resting tells whether the report is one of a rig that does not move.
func (s status) resting() bool {
	return s.is("Hold") && (s.sub == "0" || s.sub == "") || s.is("Idle", "Alarm", "Sleep")
}

// slowest returns how long slowing down from full speed can take.
func (t *talker) slowest() time.Duration { return slowest(t.axes) }

func slowest(axes []rig.Axis) time.Duration {
	s := 0.0
	for _, a := range axes {
		s = max(s, a.MaxSpeed/acceleration(a))
	}
	return seconds(s) + restMargin
}

// drain waits until what the controller holds is done, and says how long.
func (t *talker) drain() error {
	p := t.engine.pass
	if p == nil || p.zero.IsZero() {
		return t.drainMove()
	}
	end := p.zero.Add(p.shift + seconds(p.until)).Add(restMargin)
	t.enter(Draining)
	t.Observer.Say(holds(len(t.flight), end.Sub(t.now)))
	_, err := t.until(end.Sub(t.now), func() bool { return t.crashed })
	if err != nil || len(t.flight) == 0 || t.crashed {
		return err
	}
	done, err := t.until(patience, func() bool { return len(t.flight) == 0 || t.crashed })
	if err == nil && !done {
		err = failed(Silent, "it has not answered line %d, %q, which it was to end with", t.flight[0].number, t.flight[0].text)
	}
	return err
}

// drainMove waits for the one move in hand.
func (t *talker) drainMove() error {
	if t.crashed {
		return nil
	}
	t.Observer.Say("it has no hold: the move in hand goes on to its end")
	t.stops = 0
	left := patience
	if len(t.flight) > 0 {
		left += max(t.flight[0].by.Sub(t.now), 0)
	}
	err := t.exchange(syncLine, left)
	if errors.Is(err, errStopped) {
		err = nil
	}
	return err
}

// resume goes on after a stop.
func (t *talker) resume(p *pass) {
	if t.controller.Hold != 0 {
		t.out.hurry(t.controller.Resume)
		p.shift += t.now.Sub(p.pausedAt)
	} else {
		p.shift += max(t.now.Sub(p.when(p.until)), 0)
	}
	p.pausedAt = time.Time{}
	t.stream.paused, t.stream.resumed = false, t.now
}

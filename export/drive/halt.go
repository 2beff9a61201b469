package drive

import (
	"errors"
	"time"

	"seamrail/export/drive/stepplayer"
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
func (t *lineController) slow() {
	t.stream.paused = true
	if t.controller.Hold != 0 {
		t.out.hurry(t.controller.Hold)
	}
	if p := t.engine.pass; p != nil && p.pausedAt.IsZero() {
		p.held, p.pausedAt = p.held || !t.calming, t.now
	}
}

// crash resets the controller, if it can.
func (t *lineController) crash() {
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
func (t *lineController) empty() {
	if len(t.asks) > 0 {
		t.strays = t.now.Add(chatter) // reports may come yet that nobody asks for now
	}
	t.flight, t.bytes, t.asks = t.flight[:0], 0, t.asks[:0]
	t.out.forget()
}

// rest waits until nothing moves.
func (t *lineController) rest() error {
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
	from, limit := t.now, t.slowest()+patience+t.mayDwell()
	seen := t.statusAt
	still := func() bool {
		// Boards differ in whether a hold counts that comes while they stand, and a line
		// that such a one has not read yet sets it out all the same: it is told once more.
		if len(t.flight) > 0 && !t.status.is("Hold") {
			from = t.now
		}
		if t.statusAt.After(seen) && t.status.is("Run", "Jog") {
			t.out.hurry(t.controller.Hold)
		}
		seen = t.statusAt
		return t.crashed || t.reportedSince(from) && t.status.resting()
	}
	return t.within(limit, still, notAtRest, limit.Round(time.Millisecond))
}

// mayDwell is how long the lines in flight may let it stand before one moves it.
func (t *lineController) mayDwell() time.Duration {
	sec := 0.0
	for _, s := range t.flight {
		if d := dwell(s.text); d > 0 {
			sec += t.lasts(d)
		}
	}
	return seconds(sec)
}

const notAtRest = "it has not come to rest within %v of the hold"

// resting tells whether the report is one of a rig that does not move.
func (s status) resting() bool {
	return s.is("Hold") && (s.sub == "0" || s.sub == "") || s.is("Idle", "Alarm", "Sleep")
}

func (t *lineController) slowing() time.Duration { return t.slowest() }

// slowest returns how long slowing down from full speed can take.
func (t *lineController) slowest() time.Duration { return slowest(t.axes) }

func slowest(axes []rig.Axis) time.Duration {
	s := 0.0
	for _, a := range axes {
		s = max(s, a.MaxSpeed/acceleration(a))
	}
	return seconds(s) + restMargin
}

// drain waits until what the controller holds is done, and says how long.
func (t *lineController) drain() error {
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
func (t *lineController) drainMove() error {
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
func (t *lineController) resume(p *pass) {
	if t.controller.Hold != 0 {
		t.out.hurry(t.controller.Resume)
		p.shift += t.now.Sub(p.pausedAt)
	} else {
		p.shift += max(t.now.Sub(p.when(p.until)), 0)
	}
	p.pausedAt = time.Time{}
	t.stream.paused, t.stream.resumed = false, t.now
}

// LastWords are what a controller is told when nobody is left to drive it.
type LastWords struct {
	Hold   []byte        // slow down and rest; none = it has no such word, and stops when it is not fed
	Rest   time.Duration // how long that takes at most
	Forget []byte        // at rest: forget what was to come; none = it has no such word
}

// maxRest is how long a controller is waited for that slows down with nobody to see
// it: a heavy carriage at 400 mm/s and 100 mm/s2 needs four seconds.
const maxRest = 6 * time.Second

// LastWordsFor returns those for the controller of a rig. They may come in the
// middle of a line, or of a frame.
func LastWordsFor(r rig.Rig) LastWords {
	w := LastWords{Rest: min(slowest(r.Axes), maxRest)}
	c := r.Controller
	if c.Kind.PlaysSteps() {
		// A player reads a frame that was cut off to its length, finds that its
		// check is wrong and looks again from its second byte on: what it takes to
		// fill the longest comes after the hold.
		w.Hold = append(stepplayer.Frame{Type: stepplayer.Hold}.Append(nil), make([]byte, maxFrame)...)
		w.Forget = stepplayer.Frame{Type: stepplayer.Abort}.Append(nil)
		return w
	}
	if c.Hold != 0 {
		w.Hold = []byte{c.Hold}
	}
	if c.Abort != 0 {
		w.Forget = []byte{c.Abort}
	}
	return w
}

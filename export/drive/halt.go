package drive

import (
	"errors"
	"fmt"
	"math"
	"time"
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
		p.held, p.pausedAt = true, t.now
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
func (t *talker) slowest() time.Duration {
	s := 0.0
	for _, a := range t.axes {
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

// halt makes the controller forget what it holds. A reset at rest keeps its
// count but may drop where the count begins, so that it is told again.
func (t *talker) halt() bool {
	at, ok := t.stands()
	known := ok && t.known && !t.crashed && t.alarmed == ""
	if t.controller.Hold != 0 && t.controller.Abort != 0 && !t.crashed {
		t.crash()
	}
	if t.crashed {
		t.expected = true
		if t.comesBack() != nil {
			return false
		}
		t.adrift = true
	}
	t.expected, t.crashed = false, false
	if t.controller.Hold != 0 && t.controller.Abort == 0 {
		t.Observer.Say("it has no abort byte, and still holds the rest of the move: switch it off and on before it is to move again")
		known = false
	}
	t.empty()
	return known && t.again(at)
}

// comesBack waits until a controller that has been reset is there again and has
// said all it has to say. One that greets does so; one that does not, as far as is
// known, is made to say something.
func (t *talker) comesBack() error {
	every := t.every
	t.every = 0 // what is heard is what it says by itself
	defer func() { t.every = every }()
	if t.controller.Greeting != "" {
		if _, err := t.until(greetWait, func() bool { return t.greeted }); err != nil {
			return err
		}
	}
	if err := t.hush(); err != nil {
		return err
	}
	oks := t.oks
	for end := t.now.Add(greetWait); t.controller.Greeting == "" && !t.calming && t.oks == oks && t.now.Before(end); {
		t.out.send([]byte("\n"))
		if _, err := t.until(provokeWait, func() bool { return t.oks > oks }); err != nil {
			return err
		}
	}
	return t.hush()
}

// hush waits until it has said nothing for a while.
func (t *talker) hush() error {
	end := t.now.Add(greetWait)
	for more := true; more && t.now.Before(end); {
		lines, err := t.way.count, error(nil)
		if more, err = t.until(chatter, func() bool { return t.way.count > lines }); err != nil {
			return err
		}
	}
	return nil
}

// relied tells whether what it does by itself spoils anything: not while it is
// greeted, nor after a reset as long as nothing moves and position is not known.
func (t *talker) relied() bool { return !t.expected && (t.known || t.moving || !t.adrift) }

// stands returns where the axes stand now, at rest, if that is a place of the plan.
func (t *talker) stands() ([]float64, bool) {
	if t.controller.Status != 0 {
		if t.gone || t.fresh() != nil || !t.status.is("Idle", "Hold") { // asleep its motors have no current
			return nil, false
		}
		at, ok := t.position()
		return at, ok && t.onPath(at)
	}
	if t.controller.Hold != 0 || len(t.flight) > 0 {
		return nil, false
	}
	if t.engine.pass == nil {
		return t.bound, len(t.bound) > 0
	}
	return t.stream.aim, t.stream.aim != nil
}

// onPath tells whether a pass that was stopped can have come to rest here. A
// controller that was reset meanwhile, and does not say so, counts from elsewhere.
func (t *talker) onPath(at []float64) bool {
	p := t.engine.pass
	if p == nil || p.zero.IsZero() {
		return true
	}
	from, to := p.sec()-mostLate-t.slowest().Seconds(), p.sec()+mostLate+t.slowest().Seconds()
	for i, x := range at {
		off := p.beyond(i, x, from, to)
		if t.controller.Hold == 0 && t.stream.aim != nil { // it has gone on to the end of what was sent
			off = x - t.stream.aim[i]
		}
		if math.Abs(off) > p.mayStray(i) || p.moved(at) >= 0 {
			t.Observer.Say(fmt.Sprintf("axis %s is reported at %.3f %s, where the take has not brought it", t.axes[i].Name, x, t.axes[i].Unit()))
			return false
		}
	}
	return true
}

// again tells the controller where it stands, if it is not in an alarm.
func (t *talker) again(at []float64) bool {
	if t.calming {
		return false
	}
	if err := t.fresh(); err != nil || t.locked() {
		return false
	}
	t.stops = 0
	if err := t.place(at); err != nil {
		return false
	}
	copy(t.at, at)
	return true
}

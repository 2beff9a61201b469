package drive

import (
	"fmt"
	"math"
)

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
	limit := greetWait
	if t.calming { // nobody goes on with it
		limit = againWait
	}
	if t.controller.Greeting != "" {
		if _, err := t.until(limit, func() bool { return t.greeted }); err != nil {
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
	from, to := p.sec()-maxLate-t.slowest().Seconds(), p.sec()+maxLate+t.slowest().Seconds()
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

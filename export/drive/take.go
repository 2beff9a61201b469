package drive

import (
	"errors"
	"math"
	"time"
)

// ready waits for the operator to want a take.
func (e *engine) ready() error {
	if e.Takes > 0 {
		return nil
	}
	e.enter(Ready)
	for e.known {
		r, err := e.next()
		if err != nil || r.Kind == Go {
			return err
		}
		state := e.state
		if err := e.obey(r); err != nil {
			return err
		}
		if e.state != state && e.known {
			e.enter(Ready)
		}
	}
	return errStopped // position has been lost: it is to be settled again
}

// take runs one take: to the start, cautions, count-in, pass, return. It tells
// whether the pass began.
func (e *engine) take(number int) (begun bool, err error) {
	for again := true; again; {
		if err := e.approach(); err != nil {
			return begun, err
		}
		if err := e.caution(); err != nil {
			return begun, err
		}
		if err := e.countIn(); err != nil {
			return begun, err
		}
		begun = true
		if again, err = e.onePass(number); err != nil {
			return begun, err
		}
	}
	return begun, e.back()
}

// approach goes to the start of the take, one axis after the other.
func (e *engine) approach() error {
	e.enter(Approaching)
	return e.goTo(e.start)
}

// goTo moves every axis gently to its place, one after the other, so that each
// keeps to its own speed and the operator can follow.
func (e *engine) goTo(places []float64) error {
	return e.inMotion(func() error {
		for i, to := range places {
			if to == e.at[i] {
				continue
			}
			if err := e.m.glide(i, to, false); err != nil {
				return err
			}
		}
		return nil
	})
}

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

// countIn counts the beats down to the beginning of the motion.
func (e *engine) countIn() error {
	if e.CountIn <= 0 {
		return nil
	}
	e.enter(Counting)
	from := e.now
	for n := range e.CountIn {
		e.Observer.Count(e.CountIn - n)
		if err := e.sleep(from.Add(time.Duration(n+1) * beat)); err != nil {
			return err
		}
	}
	e.Observer.Count(0)
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

// onePass runs one pass, with its records. It tells whether the operator wants it
// anew after a stop.
func (e *engine) onePass(number int) (again bool, err error) {
	p := newPass(e, number)
	if err := e.m.load(p); err != nil {
		return false, err
	}
	if err := p.begin(); err != nil {
		return false, err
	}
	e.pass = p
	e.requests = e.requests[:0]
	e.enter(Running)
	err = e.inMotion(func() error { return e.perform(p) })
	var fault *Failure
	if errors.As(err, &fault) {
		return false, err // the fault ends the pass once all is at rest
	}
	e.pass = nil
	end := Finished
	switch {
	case e.aborted:
		end = Aborted
	case err != nil:
		end = Stopped
	}
	again = errors.Is(err, errRestart)
	if again {
		err = nil
		if !e.known {
			again, err = false, errStopped
		}
	}
	if logged := p.end(end, ""); logged != nil {
		return false, logged
	}
	return again, err
}

// errRestart is returned by a pass that is to be begun anew.
var errRestart = errors.New("take to be begun anew")

// perform feeds the pass until all of it has been carried out.
func (e *engine) perform(p *pass) error {
	for !e.m.done(p) {
		if err := e.m.feed(p); err != nil {
			return err
		}
		if err := e.wait(e.now.Add(never)); err != nil {
			return err
		}
		if e.stops > 0 {
			if err := e.pause(p); err != nil {
				return err
			}
		}
		e.requested(p)
	}
	return e.land(p)
}

// requested takes what may be asked for while a pass runs.
func (e *engine) requested(p *pass) {
	for _, r := range e.requests {
		if r.Kind == Finish && !p.finished {
			p.finished = true
			e.m.finish(p)
		}
	}
	e.requests = e.requests[:0]
}

// pause comes to rest after a stop and waits to be told what next.
func (e *engine) pause(p *pass) error {
	e.enter(Slowing)
	if err := e.m.rest(); err != nil {
		return err
	}
	if e.crashed || e.quit {
		return errStopped
	}
	e.enter(Resting)
	e.moving = false // a stop now is an answer, not an emergency
	defer func() { e.moving = true }()
	for {
		r, err := e.next()
		switch {
		case errors.Is(err, errQuit):
			return errStopped
		case err != nil:
			e.moving = true
			return err
		case r.Kind == Resume:
			e.m.resume(p)
			e.stops = 0
			e.enter(Running)
			return nil
		case r.Kind == Restart:
			return e.giveUp()
		}
	}
}

// giveUp ends the pass in hand so that it can begin anew.
func (e *engine) giveUp() error {
	known := e.m.halt()
	e.known = e.known && known
	if err := e.fault(); err != nil {
		return err
	}
	return errRestart
}

const (
	// listen is how long after the planned end answers too many are waited for.
	listen = 100 * time.Millisecond
	// strayUnits is how far from its end, in mm or degrees, an axis may come to
	// rest: a step of a coarse rig and the rounding of a report.
	strayUnits = 0.1
)

// land makes sure that the pass ended where and when it should have.
func (e *engine) land(p *pass) error {
	end := later(p.when(p.planned(p.rounds)-p.runUp), e.now).Add(listen)
	p.next = e.now.Add(never)
	if err := e.sleepThrough(end); err != nil {
		return err
	}
	at, known := e.m.last(p)
	if !known {
		return failed(Astray, "where it came to rest is not known")
	}
	for i, a := range e.axes {
		want := e.planAt(i, p.rounds, p.planned(p.rounds))
		if off := at[i] - want; math.Abs(off) > strayUnits+1/a.StepsPerUnit.Float() {
			return failed(Astray, "axis %s came to rest at %.3f %s, %.3f from where the take ends", a.Name, at[i], a.Unit(), off)
		}
		e.at[i] = want
	}
	return nil
}

func (e *engine) sleepThrough(until time.Time) error {
	for e.now.Before(until) {
		if err := e.wait(until); err != nil {
			return err
		}
	}
	return nil
}

func later(a, b time.Time) time.Time {
	if a.Before(b) {
		return b
	}
	return a
}

// fullTurn is how many degrees an endless axis is back after.
const fullTurn = 360

// back returns to the start. An endless axis goes to the nearest place that
// looks the same, and counts from there.
func (e *engine) back() error {
	e.enter(Returning)
	same := append([]float64(nil), e.start...)
	for i, a := range e.axes {
		if a.Endless {
			same[i] += fullTurn * math.Round((e.at[i]-same[i])/fullTurn)
		}
	}
	if err := e.goTo(same); err != nil {
		return err
	}
	if err := e.m.place(e.start); err != nil {
		return err
	}
	copy(e.at, e.start)
	return nil
}

package drive

import (
	"errors"
	"math"
	"slices"
)

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
	e.moving = false // a stop now is an answer, not an emergency
	defer func() { e.moving = true }()
	if err := p.rests(); err != nil {
		return err
	}
	e.enter(Resting)
	for {
		r, err := e.next()
		switch {
		case errors.Is(err, errQuit):
			return errStopped
		case err != nil:
			e.moving = true
			return err
		case r.Kind == Resume:
			if err := p.goesOn(); err != nil {
				return err
			}
			e.m.resume(p)
			e.stops = 0
			e.enter(Running)
			return nil
		case r.Kind == Restart:
			return e.giveUp()
		}
	}
}

// rests notes where a pass has come to rest.
func (p *pass) rests() error {
	if err := p.m.fresh(); err != nil {
		return err
	}
	if at, ok := p.m.position(); ok {
		p.rest = slices.Clone(at)
	}
	return nil
}

// goesOn refuses to go on from elsewhere than where a pass came to rest.
func (p *pass) goesOn() error {
	if err := p.m.fresh(); err != nil {
		return err
	}
	at, ok := p.m.position()
	if i := p.moved(at); ok && i >= 0 {
		a := p.axes[i]
		return failed(Astray, "axis %s came to rest at %.3f %s, and is reported at %.3f now: it was moved, or the controller has lost count", a.Name, p.rest[i], a.Unit(), at[i])
	}
	p.rest = nil
	return nil
}

// moved returns the first axis that does not stand where the pass came to rest, or -1.
func (p *pass) moved(at []float64) int {
	for i := range p.rest {
		if i < len(at) && math.Abs(at[i]-p.rest[i]) > p.mayRest(i) {
			return i
		}
	}
	return -1
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

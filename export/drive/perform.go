package drive

import (
	"errors"
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

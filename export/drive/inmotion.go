package drive

import (
	"errors"
	"slices"

	"seamrail/export/drive/takelog"
)

// errStopped is returned by what the operator has stopped, once at rest.
var errStopped = errors.New("stopped by the operator")

// inMotion runs something that moves the rig, unless a stop was asked for before
// it. A stop within it ends in errStopped, with the rig at rest and position
// known or not.
func (e *engine) inMotion(move func() error) error {
	if e.stopWaits() {
		return errStopped
	}
	e.moving, e.stops, e.aborted = true, 0, false
	err := move()
	if err == nil && e.stops > 0 || errors.Is(err, errStopped) {
		err = e.stopped()
	}
	var fault *Failure
	e.moving = errors.As(err, &fault) // until calm has dealt with it
	return err
}

// stopWaits takes a stop that came while nothing moved and nobody was asked: it
// is not to be forgotten over what moves next.
func (e *engine) stopWaits() bool {
	if !slices.ContainsFunc(e.requests, ends) {
		return false
	}
	e.requests = nil
	return true
}

// ends tells whether a request stops what is going on.
func ends(r Request) bool { return r.Kind == Stop || r.Kind == Quit }

// stopped comes to rest after a stop that nothing resumes.
func (e *engine) stopped() error {
	if err := e.m.rest(); err != nil {
		return err
	}
	was, known := e.known, e.m.halt()
	e.known = e.known && known && e.state != Homing // a board that finds its switch counts anew from it
	if e.homed != nil {
		e.homed = nil
		e.Observer.Say("where the axes stand that had been homed is not known any more")
	}
	if err := e.fault(); err != nil {
		return err
	}
	if was && !e.known && e.pass == nil {
		if err := e.record(takelog.Record{Kind: takelog.Lost, Outcome: Stopped.String()}); err != nil {
			return err
		}
	}
	return errStopped
}

// errQuit is returned where the operator leaves.
var errQuit = errors.New("quit by the operator")

// asked takes a request. A stop of something that moves is passed on before
// anything else happens.
func (e *engine) asked(r Request) {
	e.quit = e.quit || r.Kind == Quit
	switch r.Kind {
	case JogHold:
		e.holds(r)
		return
	case JogRelease:
		e.lets()
		return
	}
	if e.held != nil {
		e.held.let = true
	}
	if !ends(r) || !e.moving {
		e.requests = append(e.requests, r)
		return
	}
	e.stops++
	if e.stops == 1 {
		e.m.slow()
	} else {
		e.aborted = true
		e.m.crash()
	}
}

// next takes the oldest request, waiting for one if there is none.
func (e *engine) next() (Request, error) {
	for len(e.requests) == 0 {
		if err := e.wait(e.now.Add(never)); err != nil {
			return Request{}, err
		}
	}
	r := e.requests[0]
	e.requests = e.requests[1:]
	if ends(r) {
		return r, errQuit
	}
	return r, nil
}

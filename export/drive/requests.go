package drive

import (
	"errors"
)

// errQuit is returned where the operator leaves.
var errQuit = errors.New("quit by the operator")

// asked takes a request. A stop of something that moves is passed on before
// anything else happens.
func (e *engine) asked(r Request) {
	e.quit = e.quit || r.Kind == Quit
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

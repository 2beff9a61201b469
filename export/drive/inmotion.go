package drive

import (
	"errors"

	"seamrail/export/drive/takelog"
)

// errStopped is returned by what the operator has stopped, once at rest.
var errStopped = errors.New("stopped by the operator")

// inMotion runs something that moves the rig. A stop within it ends in
// errStopped, with the rig at rest and position known or not.
func (e *engine) inMotion(move func() error) error {
	e.moving, e.stops = true, 0
	err := move()
	if err == nil && e.stops > 0 || errors.Is(err, errStopped) {
		err = e.stopped()
	}
	var fault *Failure
	e.moving = errors.As(err, &fault) // until calm has dealt with it
	return err
}

// stopped comes to rest after a stop that nothing resumes.
func (e *engine) stopped() error {
	if err := e.m.rest(); err != nil {
		return err
	}
	was, known := e.known, e.m.halt()
	e.known = e.known && known
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

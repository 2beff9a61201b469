package drive

import (
	"errors"
	"slices"

	"seamrail/export/drive/takelog"
)

// Result is how a run ended.
type Result struct {
	End    End
	Detail string
	Takes  int       // passes begun
	Known  bool      // position is known
	At     []float64 // while it is: where each axis of the plan stands, mm or degrees
}

// Err returns the fault that ended the run as a *Failure, or nil.
func (r Result) Err() error {
	if !r.End.Fault() {
		return nil
	}
	return &Failure{End: r.End, Detail: r.Detail}
}

// Run drives takes of a trajectory until the operator leaves, the takes asked
// for are done, or something is wrong. It panics on options without a
// trajectory, an observer, or, for a controller that reads words, a source.
func Run(w World, o Options) Result {
	e := newEngine(w, o)
	takes, err := e.run()
	r := Result{Takes: takes}
	var fault *Failure
	switch {
	case err == nil:
	case errors.As(err, &fault):
		r.End, r.Detail = fault.End, fault.Detail
		e.calm(fault)
	case e.aborted:
		r.End = Aborted
	case errors.Is(err, errStopped):
		r.End = Stopped
	default:
		r.End = Quitted
	}
	if r.Known = e.known; r.Known {
		r.At = slices.Clone(e.at)
	}
	e.mind()
	e.enter(Over)
	return r
}

// run goes through the phases. It returns the passes begun, and a *Failure,
// errStopped, errQuit or, when the takes asked for are done, nil.
func (e *engine) run() (takes int, err error) {
	e.enter(Opening)
	if err := e.m.greet(); err != nil {
		return 0, err
	}
	e.enter(Reading)
	if err := e.m.check(); err != nil {
		return 0, err
	}
	for e.Takes == 0 || takes < e.Takes {
		if err = e.settle(); err == nil {
			err = e.ready()
		}
		if err == nil {
			var begun bool
			begun, err = e.take(e.FirstTake + takes)
			if begun {
				takes++
			}
		}
		if err != nil && !e.goesOn(err) {
			return takes, err
		}
	}
	return takes, nil
}

// goesOn tells whether the operator is still there after a stop, to be asked
// what next.
func (e *engine) goesOn(err error) bool {
	return (errors.Is(err, errStopped) || errors.Is(err, errDeclined)) && !e.quit && e.Takes == 0
}

// errDeclined is returned where the operator does not confirm.
var errDeclined = errors.New("not confirmed")

// calm comes to rest after a fault and writes it down. A controller that has
// stopped by itself is sent nothing more.
func (e *engine) calm(f *Failure) {
	e.known, e.homed, e.calming = false, nil, true
	stopsItself := f.End == Alarmed || f.End == Restarted || f.End == PortLost
	if e.moving && !e.gone {
		if stopsItself {
			e.out = wire{}
		} else {
			e.m.slow()
			e.Observer.Say(f.End.String() + ": it is made to rest")
			if e.m.rest() != nil {
				e.m.crash()
			}
			e.m.halt()
		}
	}
	e.moving = false
	var err error
	switch {
	case e.pass != nil:
		err = e.pass.end(f.End, f.Detail)
	default:
		err = e.record(takelog.Record{Kind: takelog.Lost, Outcome: f.End.String(), Detail: f.Detail})
	}
	e.pass = nil
	if err != nil && f.End != LogFailed {
		e.Observer.Say(err.Error())
	}
}

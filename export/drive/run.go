package drive

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"seamrail/export/drive/takelog"
)

// Result is how a run ended.
type Result struct {
	End    End
	Detail string
	Takes  int       // passes begun, of which each has a number of its own
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
	err := e.run()
	r := Result{Takes: e.begun}
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
	e.darken()
	e.mind()
	e.enter(Over)
	return r
}

// run goes through the phases. It returns a *Failure, errStopped, errQuit or, when the
// takes asked for are done, nil.
func (e *engine) run() (err error) {
	e.enter(Opening)
	if err := e.met(); err != nil {
		return err
	}
	e.enter(Reading)
	if err := e.m.check(); err != nil {
		return err
	}
	takes := 0
	for e.Takes == 0 || takes < e.Takes {
		if err = e.settle(); err == nil {
			err = e.wired()
		}
		if err == nil {
			err = e.ready()
		}
		if err == nil {
			var begun bool
			begun, err = e.take()
			if begun {
				takes++
			}
		}
		if err != nil && !e.goesOn(err) {
			return err
		}
	}
	return nil
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
	e.darken()
	var err error
	switch {
	case e.pass != nil:
		err = e.pass.end(f.End, f.Detail)
	case e.frames != nil:
		err = e.frames.end(f.End, f.Detail)
	default:
		err = e.record(takelog.Record{Kind: takelog.Lost, Outcome: f.End.String(), Detail: f.Detail})
	}
	e.pass, e.frames = nil, nil
	if err != nil && f.End != LogFailed {
		e.Observer.Say(err.Error())
	}
}

// settle waits until position is known. What the options say is done the first
// time; after that, and where they say nothing, the operator is asked.
func (e *engine) settle() error {
	if e.m.locked() && e.Unlock && e.Settle != ByHoming {
		e.Unlock = false
		if err := e.m.unlock(); err != nil {
			return err
		}
	}
	if e.Settle == AsBefore {
		e.Settle = AskOperator
		if err := e.here(e.At); err != nil {
			return err
		}
	}
	for !e.known {
		e.enter(Unsettled)
		r, err := e.settling()
		if err == nil {
			err = e.obey(r)
		}
		if err != nil && !e.goesOn(err) {
			return err
		}
	}
	return nil
}

// settling is the next request: what the options say, else the operator's.
func (e *engine) settling() (Request, error) {
	how := e.Settle
	e.Settle = AskOperator
	switch how {
	case ByHoming:
		return Request{Kind: Home}, nil
	case ByHand:
		return Request{Kind: Here}, nil
	}
	return e.next()
}

// obey does what is asked for outside a take.
func (e *engine) obey(r Request) error {
	if e.m.locked() && r.Kind != Home && r.Kind != Unlock {
		e.Observer.Say("it is in an alarm: home it, or unlock it first")
		if e.Takes > 0 {
			return failed(Alarmed, "it is in an alarm, and nobody is asked whether to unlock it: --unlock clears an alarm whose cause is gone, --home homes the rig")
		}
		return nil
	}
	switch r.Kind {
	case Home:
		return e.home()
	case Here:
		return e.here(e.byHand())
	case Unlock:
		e.homed = nil
		return e.m.unlock()
	case Jog:
		return e.jog(r)
	case JogHold:
		return e.hold(r)
	case Mark:
		e.mark(r.Name)
	case Pose:
		return e.pose(r.Frame)
	case WalkThrough:
		return e.walk(r.Walk)
	case Go: // only while position is not known
		e.Observer.Say(unknownPlace)
	}
	return nil
}

// here counts from a place that is known to be right.
func (e *engine) here(at []float64) error {
	e.known, e.homed = false, nil
	if err := e.m.place(at); err != nil {
		return err
	}
	e.at, e.known = append([]float64(nil), at...), true
	return e.record(takelog.Record{Kind: takelog.Settled, Known: true})
}

// jog moves one axis a little, within its travel where that can be told.
func (e *engine) jog(r Request) error {
	if r.Axis < 0 || r.Axis >= len(e.axes) || math.IsNaN(r.By) || math.IsInf(r.By, 0) {
		return nil
	}
	a := e.axes[r.Axis]
	if !e.sure(r.Axis) {
		if math.Abs(r.By) > blindReach {
			e.Observer.Say(fmt.Sprintf("where axis %s stands is not known: it goes %d %s at a time at the most", a.Name, blindReach, a.Unit()))
			return nil
		}
		return e.inMotion(func() error { return e.m.glide(r.Axis, r.By, true) })
	}
	to := e.at[r.Axis] + r.By
	if !a.Contains(to) {
		e.Observer.Say(fmt.Sprintf("axis %s: %.3f %s is beyond its travel, %.3f to %.3f %s", a.Name, to, a.Unit(), a.Min, a.Max, a.Unit()))
		return nil
	}
	return e.inMotion(func() error { return e.m.glide(r.Axis, to, false) })
}

const unknownPlace = "position is not known: home it, or bring it to the start and say so"

// mark reports where every axis stands.
func (e *engine) mark(name string) {
	if !e.known {
		e.Observer.Say(unknownPlace)
		return
	}
	e.Observer.Marked(name, append([]float64(nil), e.at...))
}

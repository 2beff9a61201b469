package drive

import (
	"fmt"
	"math"

	"seamrail/export/drive/takelog"
)

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
	case Mark:
		e.mark(r.Name)
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

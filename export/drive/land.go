package drive

import (
	"math"
	"time"
)

const (
	// listen is how long after the planned end answers too many are waited for.
	listen = 100 * time.Millisecond
	// strayUnits is how far from its end, in mm or degrees, an axis may come to
	// rest: a step of a coarse rig and the rounding of a report.
	strayUnits = 0.1
)

// land makes sure that the pass ended where and when it should have. An abort
// that comes meanwhile is one like any other.
func (e *engine) land(p *pass) error {
	end := later(p.when(p.planned(p.rounds)-p.runUp), e.now).Add(listen)
	p.next = e.now.Add(never)
	if err := e.sleepThrough(end); err != nil {
		return err
	}
	at, known := e.m.last(p)
	if err := e.fault(); err != nil {
		return err
	}
	if e.aborted {
		return errStopped
	}
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
	e.judge(p)
	return nil
}

// outOfFrame is by how much of a captured frame a pass may be longer or shorter
// than planned before it is told of: from half a frame on the nearest frame is
// another one.
const outOfFrame = 0.5

// judge tells of a pass that took another time than planned by more than half a
// captured frame, where that is sure.
func (e *engine) judge(p *pass) {
	frame := e.Trajectory.FrameSeconds(1).Float()
	late := p.executed - p.planned(p.rounds)
	if !p.held && math.Abs(late)-p.doubt > outOfFrame*frame {
		e.Observer.Say(outOfStep(late, p.doubt, frame))
	}
}

func (e *engine) sleepThrough(until time.Time) error {
	for e.now.Before(until) {
		if err := e.wait(until); err != nil {
			return err
		}
	}
	return nil
}

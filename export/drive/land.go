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
		if off := at[i] - want; math.Abs(off) > e.mayRest(i) {
			return failed(Astray, "axis %s came to rest at %.3f %s, %.3f from where the take ends", a.Name, at[i], a.Unit(), off)
		}
		e.at[i] = want
	}
	return e.judge(p)
}

// outOfFrame is by how much of a captured frame a pass may be longer or shorter
// than planned before it is told of: from half a frame on the nearest frame is
// another one.
const outOfFrame = 0.5

// mostOff is how far the time of a pass may be from what was foretold and its motion
// still the plan, in s: as late as one may be on the way, in a short pass a tenth of
// it, and in a long one what an oscillator may do, which is told of.
func mostOff(foretold float64) float64 {
	return max(min(maxLate, reportSlack+foretold/10), worstPace*foretold)
}

// judge refuses a pass whose motion took another time than was foretold, and tells of
// one that took another than planned by more than half a captured frame, where that
// is sure. One that was held has stood still for as long as it was.
func (e *engine) judge(p *pass) error {
	frame := e.Trajectory.FrameSeconds(1).Float()
	planned, foretold := p.planned(p.rounds), p.foretold(p.rounds)
	late := p.executed - planned
	may := p.doubt + mostOff(foretold)
	switch off := p.executed - foretold; {
	case p.doubt > mostOff(foretold) && !p.held:
		return failed(NotPlan, "how long its motion took is known to %.0f ms only: an answer came late, and it may have stood still meanwhile", p.doubt*1000)
	case off < -may, off > may && !p.held:
		return failed(NotPlan, "its motion took %.3f s, and should have taken %.3f", p.executed, foretold)
	case !p.held && math.Abs(late)-p.doubt > outOfFrame*frame:
		e.Observer.Say(outOfStep(late, p.doubt, frame))
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

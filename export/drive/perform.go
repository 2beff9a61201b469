package drive

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"time"

	"seamrail/motion/base/plain"
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
	e.Observer.Progress(p.progress())
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
			p.holds++
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
		p.saw(at, p.now)
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

// holds says what a controller that cannot be held still does.
func holds(lines int, moves time.Duration) string {
	return fmt.Sprintf("it has no hold: it still has %s and moves for up to %.1f s more", plain.Count(lines, "line"), max(moves.Seconds(), 0))
}

// heldBack says what a controller that is held keeps.
func heldBack(lines int, motion float64, slows time.Duration) string {
	return fmt.Sprintf("it slows down within %.1f s, and keeps %s and %.1f s of motion", slows.Seconds(), plain.Count(lines, "line"), max(motion, 0))
}

// outOfStep says that a pass took late seconds more than planned, give or take
// doubt.
func outOfStep(late, doubt, frame float64) string {
	than := "longer"
	if late < 0 {
		than = "less"
	}
	late = math.Abs(late)
	return fmt.Sprintf("the pass took %.1f ms %s than planned, give or take %.1f ms, %.1f captured frames: look at it before you keep it",
		late*1000, than, doubt*1000, late/frame)
}

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

// land makes sure that the pass ended where and when it should have.
func (e *engine) land(p *pass) error {
	end := later(p.when(p.planned(p.rounds)-p.runUp), e.now).Add(listen)
	p.next = e.now.Add(never)
	if err := e.sleepThrough(end); err != nil {
		return err
	}
	at, known := e.m.last(p)
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

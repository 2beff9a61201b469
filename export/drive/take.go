package drive

import (
	"errors"
	"math"
	"slices"
)

// ready waits for the operator to want a take.
func (e *engine) ready() error {
	if e.Takes > 0 {
		return nil
	}
	e.enter(Ready)
	for e.known {
		r, err := e.next()
		if err != nil || r.Kind == Go {
			return err
		}
		state := e.state
		if err := e.obey(r); err != nil {
			return err
		}
		if e.state != state && e.known {
			e.enter(Ready)
		}
	}
	return errStopped // position has been lost: it is to be settled again
}

// take runs one take: to the start, cautions, count-in, pass, return. It tells
// whether the pass began. One that is begun anew after a stop is another take.
func (e *engine) take() (begun bool, err error) {
	if e.Frames != nil {
		return e.takeByFrame()
	}
	for again := true; again; {
		if err := e.approach(); err != nil {
			return begun, err
		}
		if err := e.caution(); err != nil {
			return begun, err
		}
		p := newPass(e, e.number())
		if err := e.m.load(p); err != nil {
			return begun, err
		}
		p.beats = newBeats(e, e.Rounds)
		if err = e.countIn(p, e.m.lead()); err == nil {
			begun = true
			e.numbered()
			if again, err = e.onePass(p); err == nil && again {
				err = e.turnsOn()
			}
		}
		if err == nil && begun && !again {
			err = e.markAfter(p)
		}
		p.beats.stop()
		if err != nil {
			return begun, err
		}
	}
	return begun, e.back()
}

// number is that of the take to come; 0 of a walk, which has none.
func (e *engine) number() int {
	if e.Walk != nil {
		return 0
	}
	return e.FirstTake + e.begun
}

// numbered notes that the number of the take to come is used up.
func (e *engine) numbered() {
	if e.Walk == nil {
		e.begun++
	}
}

// onePass runs one pass, with its records. It tells whether the operator wants
// it anew after a stop.
func (e *engine) onePass(p *pass) (again bool, err error) {
	if e.stopWaits() {
		return false, errStopped
	}
	p.began = e.now
	if err := p.begin(); err != nil {
		return false, err
	}
	e.pass = p
	e.requests = e.requests[:0]
	e.enter(Running)
	err = e.inMotion(func() error { return e.perform(p) })
	var fault *Failure
	if errors.As(err, &fault) {
		return false, err // the fault ends the pass once all is at rest
	}
	e.pass = nil
	end := e.endOf(err)
	again = errors.Is(err, errRestart)
	if again {
		err = nil
		if !e.known {
			again, err = false, errStopped
		}
	}
	if logged := p.end(end, ""); logged != nil {
		return false, logged
	}
	return again, err
}

// errRestart is returned by a pass that is to be begun anew.
var errRestart = errors.New("take to be begun anew")

// approach goes to the start of the take, one axis after the other.
func (e *engine) approach() error {
	to := e.start
	if e.Group != "" {
		to = e.beside()
	}
	axes, _, err := e.orderTo(to)
	if err != nil {
		e.Observer.Say("it does not go to the start: " + err.Error())
		return errDeclined
	}
	e.enter(Approaching)
	if err := e.goInOrder(to, axes); err != nil || e.Group == "" {
		return err
	}
	return e.fromBeside()
}

// goTo moves every axis gently to its place, one after the other, so that each
// keeps to its own speed and the operator can follow.
func (e *engine) goTo(places []float64) error {
	return e.goInOrder(places, e.planOrder())
}

// goInOrder is goTo for some axes, in their order.
func (e *engine) goInOrder(places []float64, axes []int) error {
	return e.inMotion(func() error {
		for _, i := range axes {
			if places[i] == e.at[i] {
				continue
			}
			if err := e.m.glide(i, places[i], false); err != nil {
				return err
			}
		}
		return nil
	})
}

// fullTurn is how many degrees an endless axis is back after.
const fullTurn = 360

// back returns to the start. An endless axis goes to the nearest place that
// looks the same, and counts from there.
func (e *engine) back() error {
	e.enter(Returning)
	same := slices.Clone(e.start)
	for i := range same {
		same[i] += e.turned(i)
	}
	if err := e.goTo(same); err != nil {
		return err
	}
	if err := e.m.place(e.start); err != nil {
		return err
	}
	copy(e.at, e.start)
	return nil
}

// turned is by how many degrees of whole turns an axis is nearer to the start by its looks
// than by its count; nothing of one that has ends.
func (e *engine) turned(i int) float64 {
	if !e.axes[i].Endless {
		return 0
	}
	return fullTurn * math.Round((e.at[i]-e.start[i])/fullTurn)
}

// turnsOn has an endless axis that was stopped after some turns count from the nearest
// place that looks the same, so that it does not turn back all that it has turned: it turns
// for ever, as after a take that was ended.
func (e *engine) turnsOn() error {
	at := slices.Clone(e.at)
	for i := range at {
		at[i] -= e.turned(i)
	}
	if !e.known || slices.Equal(at, e.at) {
		return nil
	}
	if err := e.m.place(at); err != nil {
		return err
	}
	copy(e.at, at)
	return nil
}

// endOf is how a take has ended that no fault did, by what it came back with.
func (e *engine) endOf(err error) End {
	switch {
	case e.aborted:
		return Aborted
	case err != nil:
		return Stopped
	}
	return Finished
}

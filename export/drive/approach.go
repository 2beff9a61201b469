package drive

import (
	"math"
)

// approach goes to the start of the take, one axis after the other.
func (e *engine) approach() error {
	e.enter(Approaching)
	return e.goTo(e.start)
}

// goTo moves every axis gently to its place, one after the other, so that each
// keeps to its own speed and the operator can follow.
func (e *engine) goTo(places []float64) error {
	return e.inMotion(func() error {
		for i, to := range places {
			if to == e.at[i] {
				continue
			}
			if err := e.m.glide(i, to, false); err != nil {
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
	same := append([]float64(nil), e.start...)
	for i, a := range e.axes {
		if a.Endless {
			same[i] += fullTurn * math.Round((e.at[i]-same[i])/fullTurn)
		}
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

package drive

import (
	"seamrail/motion/spec/rig"
)

// Board is what a controller says of itself.
type Board struct {
	Greeting string             // the first line it says; "" = it says nothing unasked
	Settings map[string]float64 // as it prints them, by name
}

// Inquire greets a controller, of which no more has to be known than its kind,
// and has it print its settings. Nothing that moves is sent. The error is a
// *Failure. It panics for a controller that prints no settings.
func Inquire(w World, c rig.Controller, o Observer) (Board, error) {
	if c.Kind.PlaysSteps() || c.SettingsLine == "" {
		panic("drive: a controller that prints no settings")
	}
	e := &engine{job: &job{Options: Options{Observer: o}, controller: c}, w: w, now: w.Now()}
	t := newTalker(e)
	e.m = t
	e.enter(Opening)
	if err := t.greet(); err != nil {
		return Board{}, err
	}
	b := Board{Greeting: t.stranger}
	e.enter(Reading)
	if err := t.readSettings(); err != nil {
		return Board{}, err
	}
	b.Settings = t.read
	return b, nil
}

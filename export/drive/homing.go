package drive

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

// homes tells whether it can find the switch of an axis.
func (t *lineController) homes(axis int) bool {
	return !t.homesNot && t.controller.HomeLineOf(t.axes[axis]) != ""
}

// canHome tells whether the rig file has a line that homes any axis of the plan.
func (t *lineController) canHome() bool { return len(t.homeLines()) > 0 }

// homeLines are the lines that home the axes of the plan: each once, that of the
// controller before those of single axes.
func (t *lineController) homeLines() []string {
	var all, own []string
	for _, a := range t.axes {
		line := t.controller.HomeLineOf(a)
		switch {
		case line == "":
		case line == t.controller.HomeLine:
			all = []string{line}
		case !slices.Contains(own, line):
			own = append(own, line)
		}
	}
	return append(all, own...)
}

// homeWait is how long a controller may look for the switches of the axes of the rig
// that a line homes.
func (t *lineController) homeWait(line string) time.Duration {
	s := 0.0
	for _, a := range t.rigAxes() {
		if t.controller.HomeLineOf(a) == line {
			far := a.Max - a.Min
			if a.Endless {
				far = fullTurn
			}
			s += 2*far/homeSpeed + homePause
		}
	}
	return seconds(s) + patience
}

// home finds the switches. Controllers may report nothing while they do.
func (t *lineController) home() error {
	t.every = 0
	defer func() { t.every = pollEvery }()
	t.alarmed, t.cleared = "", t.now
	for _, line := range t.homeLines() {
		if err := t.exchange(line, t.homeWait(line)); err != nil {
			return err
		}
	}
	return nil
}

// home finds the switches, and counts from where the rig file says they are. An
// axis without one is not taken to be anywhere: the operator brings it to its
// start and says so. Only an endless axis needs none, since any angle will do
// for its 0: it is taken to be where it was, or where it has been put.
func (e *engine) home() error {
	byHand, any := e.withoutSwitch()
	if !any {
		e.Observer.Say("it cannot home: bring every axis to the start by hand, and say so")
		return e.alone("it cannot home by itself, as the rig file has it")
	}
	if len(byHand) > 0 && e.Takes > 0 {
		return e.alone(fmt.Sprintf("%s without a switch, and nobody is asked to bring it to the start; bring every axis there beforehand and say so", axesNamed(byHand)))
	}
	was, known := slices.Clone(e.at), e.known
	e.enter(Homing)
	if err := e.inMotion(e.m.home); err != nil {
		return err
	}
	at, homed := make([]float64, len(e.axes)), make([]bool, len(e.axes))
	for i, a := range e.axes {
		homed[i] = true
		switch {
		case e.m.homes(i):
			at[i] = a.Home
		case known:
			at[i] = was[i]
		case a.Endless:
			at[i] = a.Home
			e.Observer.Say(fmt.Sprintf("axis %s has no switch: as it stands now counts as its %.3f deg", a.Name, a.Home))
		default:
			at[i], homed[i] = e.start[i], false
		}
	}
	if known || len(byHand) == 0 {
		return e.here(at)
	}
	return e.partly(at, homed, byHand)
}

// withoutSwitch names the axes that a hand has to bring to the start, and tells
// whether any axis can home.
func (e *engine) withoutSwitch() (byHand []string, any bool) {
	for i, a := range e.axes {
		switch {
		case e.m.homes(i):
			any = true
		case !a.Endless && !e.known:
			byHand = append(byHand, a.Name)
		}
	}
	return byHand, any
}

// alone is the fault of a run that has nobody to ask, and nil otherwise.
func (e *engine) alone(why string) error {
	if e.Takes > 0 {
		return failed(Unplanned, "%s", why)
	}
	return nil
}

// partly counts from here for the axes that have been homed, and waits for the
// others. The controller is told a place for those too, which nobody relies on.
func (e *engine) partly(at []float64, homed []bool, byHand []string) error {
	if err := e.m.place(at); err != nil {
		return err
	}
	e.at, e.homed = at, homed
	e.Observer.Say(axesNamed(byHand) + " without a switch: bring it to the start of the take by hand, and say so; the others may be left where they are")
	return nil
}

// axesNamed is "axis pan is" or "axes pan, tilt are".
func axesNamed(names []string) string {
	if len(names) == 1 {
		return "axis " + names[0] + " is"
	}
	return "axes " + strings.Join(names, ", ") + " are"
}

// byHand is where the axes stand when the operator has brought them to the
// start: those that have been homed are where they are.
func (e *engine) byHand() []float64 {
	at := slices.Clone(e.start)
	for i, homed := range e.homed {
		if homed {
			at[i] = e.at[i]
		}
	}
	return at
}

// sure tells whether the place of an axis is known.
func (e *engine) sure(axis int) bool { return e.known || len(e.homed) > 0 && e.homed[axis] }

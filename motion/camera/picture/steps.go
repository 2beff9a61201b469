package picture

import (
	"fmt"
	"math"
	"slices"
)

// moving is the speed, in mm or degrees a second, below which an axis counts
// as at rest: a day for a tenth of a unit.
const moving = 1e-6

// seen lists the axes that move the picture.
func (e *eye) seen() []int {
	all := append(slices.Clone(e.slides), e.table, e.pan, e.tilt, e.pull)
	return slices.DeleteFunc(all, func(i int) bool { return i < 0 })
}

// stepped lists those of them that a motor steps. What turns by itself has no
// steps to see and no play to take up.
func (e *eye) stepped() []int {
	return slices.DeleteFunc(e.seen(), func(i int) bool { return e.motion.Axis(i).StepsPerUnit.Sign() == 0 })
}

// perUnit is how far, in px, the picture moves when one axis alone moves so
// little about where it is at sec, at the spot where that is most.
func (e *eye) perUnit(sec float64, axis int, little float64) float64 {
	before, after := e.view(e.nudged(sec, axis, -little/2)), e.view(e.nudged(sec, axis, little/2))
	most := 0.0
	for _, s := range e.spotsIn(e.at(sec)) {
		a, ok1 := before.see(s)
		b, ok2 := after.see(s)
		if ok1 && ok2 {
			most = math.Max(most, a.to(b))
		}
	}
	return most
}

// ticking is what the steps of one axis do to the picture over the loop.
type ticking struct {
	worst  float64 // px a step
	at     float64 // s
	moving int     // frames in which the axis moves
	ticks  int     // of these, in which steps show
	least  float64 // steps in an exposure where they show
	most   float64 // In an exposure
}

func (e *eye) stepsVerdict(axis int, rows []Row) Verdict {
	a := e.motion.Axis(axis)
	check := "steps of " + a.Name
	if !e.scaled() || !e.shutter.Given {
		missing := append([]string{}, e.missing...)
		if !e.shutter.Given {
			missing = append(missing, "shutter")
		}
		return unknown(check, "whether single steps show", missing...)
	}
	if e.rests() {
		return Verdict{Check: check, Level: Good, Text: a.Name + " rests while a frame is exposed, on a whole step: no step falls into one"}
	}
	t := e.ticking(axis, rows)
	v := Verdict{Check: check, Level: Good, When: e.moment(t.at)}
	v.figure("a step", t.worst, "px")
	v.figure("in an exposure at most", t.most, "steps")
	v.figure("frames that tick", float64(t.ticks), "frames")
	v.figure("frames that move", float64(t.moving), "frames")
	step := "one step of " + a.Name + " is at most " + short(t.worst) + " px"
	switch {
	case t.moving == 0:
		v.Text = a.Name + " rests: no steps to see"
	case t.ticks == 0 && t.worst <= e.bounds.StepPixels:
		v.Text = step + ": too little to see"
	case t.ticks == 0:
		v.Text = step + ", and every exposure holds more than one: they melt together"
	default:
		e.tickWords(&v, axis, t, step)
	}
	v.partly(e.leftOut(axis))
	return v
}

// A slower move is no cure for ticking: it puts fewer steps in an exposure. A
// slower capture rate with a longer shutter is.

// mostlyTicks is the share of moving frames from which a move ticks, rather
// than only as it starts and stops, which every move does at some speed.
const mostlyTicks = 0.25

// maxSlower is how much slower a capture rate is told to be at most: beyond that it
// is another film.
const maxSlower = 8

func (e *eye) tickWords(v *Verdict, axis int, t ticking, step string) {
	share := float64(t.ticks) / float64(t.moving)
	v.Level = Fair
	v.Text = fmt.Sprintf("%s: shows in %d frames, as it starts and stops", step, t.ticks)
	if share > mostlyTicks {
		v.Level = Poor
		v.Text = fmt.Sprintf("%s, with less than one in an exposure in %d of %d frames: the picture ticks", step, t.ticks, t.moving)
	}
	v.gauge = t.worst
	e.tryFiner(v, axis, t.worst/e.bounds.StepPixels)
	if t.least > 0 {
		longer := e.shutter.Value * e.bounds.StepsExposed / t.least
		if longer <= e.frame {
			e.trySeconds(v, longer, "a shutter of %s")
		} else if longer/e.frame <= maxSlower {
			v.advise("a capture rate of at most %s, with the shutter as long as its frame", atMost(1/longer))
		}
	}
	e.tryFarther(v, t.worst/e.bounds.StepPixels)
}

func (e *eye) ticking(axis int, rows []Row) ticking {
	t := ticking{}
	step := 1 / e.motion.Axis(axis).StepsPerUnit.Float()
	for _, r := range rows {
		mid := r.Seconds + e.shutter.Value/2
		speed := math.Abs(e.motion.State(axis, mid).Vel)
		if speed < moving {
			continue
		}
		t.moving++
		px := e.perUnit(mid, axis, step)
		if px > t.worst {
			t.worst, t.at = px, r.Seconds
		}
		exposed := speed * e.shutter.Value / step
		t.most = math.Max(t.most, exposed)
		if px > e.bounds.StepPixels && exposed < e.bounds.StepsExposed {
			if t.ticks++; t.ticks == 1 || exposed < t.least {
				t.least = exposed
			}
		}
	}
	return t
}

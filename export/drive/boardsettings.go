package drive

import (
	"fmt"
	"math"
	"strings"

	"seamrail/motion/spec/rig"
)

// finding is what a setting of the controller means for the take: a sentence
// that refuses it, one that is told, or neither.
type finding struct{ refuse, tell string }

// boardSettings are the settings that concern all axes: what each is, what one
// that is not as the rig file states costs, how it is written there, and what
// is made of it besides.
var boardSettings = [rig.SettingCount]struct {
	what, costs string
	switched    bool                 // it is on or off: whatever is not 0 is on
	write       func(float64) string // as the rig file has it; of one that is switched, true or false
	judge       func(t *lineController, name string, got float64) finding
}{
	rig.StepPulse: {what: "step pulse, us", costs: "a motor driver misses pulses that are too short for it, and the axis comes to stand elsewhere",
		write: microseconds},
	rig.IdleWait: {what: "idle delay, ms", judge: (*lineController).judgeIdle},
	rig.StepInvert: {what: "inverted steps, a bit an axis", costs: "drivers then step as a pulse ends, and may lose one at each turnaround",
		write: whole},
	rig.DirectionInvert: {what: "inverted directions, a bit an axis", costs: "an axis then goes the other way, and may run into what is there",
		write: whole},
	rig.EnableInvert: {what: "inverted enable", costs: "the motors then have no current while they should move",
		switched: true},
	rig.Junction: {what: "junction deviation, mm", judge: (*lineController).judgeJunction},
	rig.Inches:   {what: "reports inches", judge: (*lineController).judgeInches},
	rig.SoftLimits: {what: "soft limits", costs: "it then stops with an alarm in the middle of a move, or does not where it should",
		switched: true, judge: (*lineController).judgeSoftLimits},
	rig.HardLimits: {what: "limit switches stop it", costs: "a carriage that is sent too far is then not stopped by its switch, or an alarm comes where none is wired",
		switched: true},
	rig.Homing: {what: "homing", costs: "it then does not find its switches, or waits in an alarm until it has",
		switched: true, judge: (*lineController).judgeHoming},
	rig.HomeInvert: {what: "axes that home at the other end, a bit an axis", costs: "an axis then looks for its switch at the end where it has none",
		write: whole},
	rig.Laser: {what: "laser mode", judge: (*lineController).judgeLaser},
}

func microseconds(x float64) string { return fmt.Sprintf("\"%g us\"", x) }
func whole(x float64) string        { return fmt.Sprintf("%g", x) }
func onOff(x float64) string        { return fmt.Sprint(x != 0) }

// checkBoard compares the settings that concern all axes, tells what is to be
// known of them, and returns in words why the take must not run.
func (t *lineController) checkBoard(s settings) (refused []string) {
	var as, unread []string
	for k := range rig.SettingCount {
		name := t.controller.Reports[k]
		if name == "" {
			continue
		}
		got, printed := s[name]
		if !printed {
			unread = append(unread, name)
			if t.states(k) {
				refused = append(refused, fmt.Sprintf("%s: it does not print %s, and the rig file says what it is; take it out there, or say what it prints it as under reports", k, name))
			}
			continue
		}
		f := t.judge(k, name, got)
		refused = with(refused, f.refuse)
		if f.tell != "" {
			t.Observer.Say(f.tell)
		}
		if boardSettings[k].judge == nil && !t.controller.Stated[k].Known {
			as = append(as, fmt.Sprintf("%s=%g (%s)", name, got, boardSettings[k].what))
		}
	}
	if len(as) > 0 {
		t.Observer.Say("it is set to " + strings.Join(as, ", ") + "; the rig file does not say what these should be")
	}
	if len(unread) > 0 {
		t.Observer.Say("it does not print " + strings.Join(unread, ", ") + ": what these settings are is not known")
	}
	return refused
}

// states tells whether the rig file says what a setting is.
func (t *lineController) states(k rig.Setting) bool {
	return t.controller.Stated[k].Known || k == rig.IdleWait && t.controller.IdleStated
}

// judge compares one setting with what the rig file states, and with what a take
// needs.
func (t *lineController) judge(k rig.Setting, name string, got float64) finding {
	b, stated := boardSettings[k], t.controller.Stated[k]
	same, write := near(got, stated.Value), b.write
	if b.switched {
		same, write = (got != 0) == (stated.Value != 0), onOff
	}
	if stated.Known && !same {
		return finding{refuse: fmt.Sprintf("%s: %s is %g and the rig file says %s: %s. Set %s=%g, or, where that is right, say %s = %s under settings of the controller in the rig file",
			k, name, got, write(stated.Value), b.costs, name, stated.Value, k, write(got))}
	}
	if b.judge == nil {
		return finding{}
	}
	return b.judge(t, name, got)
}

// printGrain is half of the last of the three decimals that controllers print.
const printGrain = 0.0005

const perSecond = 1000 // ms

// judgeIdle holds the idle delay against the one that the plan was made for. A
// controller waits that long at each end of motion and each dwell (measured on
// open firmware), and then takes the current off.
func (t *lineController) judgeIdle(name string, got float64) finding {
	const falls = "then takes the current off its motors: a carriage on an incline falls, and one that is touched loses its place"
	planned := t.controller.IdleDelay * perSecond
	assumed := "its motors keep their current"
	if planned > 0 {
		assumed = fmt.Sprintf("it waits %g ms", planned)
	}
	cure := fmt.Sprintf("Set %s=%d", name, rig.StaysOn)
	switch {
	case got >= rig.StaysOn && planned == 0:
		return finding{}
	case got == 0 && t.controller.IdleAtOnce:
		return finding{tell: fmt.Sprintf("it does not wait at an end of motion or a dwell (%s=0), as the rig file says, and %s", name, falls)}
	case got >= rig.StaysOn:
		return finding{refuse: fmt.Sprintf("idle delay: %s is %g, so that its motors keep their current and it does not wait at a rest, and the plan was made as if %s: "+
			"it would be %g ms early after each end of motion and each dwell. Say idle-delay = \"none\" in the rig file and plan again", name, got, assumed, planned)}
	case planned > 0 && math.Abs(got-planned) <= printGrain:
		return finding{tell: fmt.Sprintf("it waits %g ms at each end of motion and each dwell (%s), as the plan knows, and %s", got, name, falls)}
	default:
		cure += fmt.Sprintf(", or say idle-delay = \"%g ms\" in the rig file and plan again", got)
	}
	return finding{refuse: fmt.Sprintf("idle delay: %s is %g ms, and the plan was made as if %s: at each end of motion and each dwell it would be %g ms out of step with the frames, and it %s. %s",
		name, got, assumed, math.Abs(got-planned), falls, cure)}
}

// judgeJunction holds the junction deviation against the one that the pace of
// the lines was worked out for.
func (t *lineController) judgeJunction(name string, got float64) finding {
	want := t.controller.JunctionDeviation
	if near(got, want) || math.Abs(got-want) <= printGrain {
		return finding{}
	}
	return finding{refuse: fmt.Sprintf("junction deviation: %s is %g mm and the rig file says %g mm: it would pass from line to line at another pace than the lines were worked out for, "+
		"and be out of step with the frames. Set %s=%g, or say junction-deviation = \"%g mm\" in the rig file and plan again", name, got, want, name, want, got)}
}

// inch is an inch in mm, exactly.
const inch = 25.4

// judgeInches makes reports understood. Whether degrees are divided as well
// differs from controller to controller.
func (t *lineController) judgeInches(name string, got float64) finding {
	if got == 0 {
		return finding{}
	}
	for _, a := range t.axes {
		if a.Kind == rig.Rotary {
			return finding{refuse: fmt.Sprintf("inches: %s is %g, so that it reports places in inches, and whether it divides the degrees of axis %s too cannot be told: "+
				"where the rig stands would not be known. Set %s=0", name, got, a.Name, name)}
		}
	}
	t.inches = true
	return finding{tell: fmt.Sprintf("it reports places in inches (%s=%g): they are read as such", name, got)}
}

func (t *lineController) judgeHoming(name string, got float64) finding {
	if got != 0 || !t.canHome() {
		return finding{}
	}
	t.homesNot = true
	return finding{tell: fmt.Sprintf("it does not home (%s=%g), though the rig file has a line for it: axes are brought to the start by hand", name, got)}
}

func (t *lineController) judgeLaser(name string, got float64) finding {
	if got == 0 {
		return finding{}
	}
	return finding{refuse: fmt.Sprintf("laser mode: %s is %g: it then runs through changes of its output without coming to rest, and rests and paces are not as planned. Set %s=0", name, got, name)}
}

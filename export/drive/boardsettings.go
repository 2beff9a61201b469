package drive

import (
	"fmt"
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
	judge       func(t *talker, name string, got float64) finding
}{
	rig.StepPulse: {what: "step pulse, us", costs: "a motor driver misses pulses that are too short for it, and the axis comes to stand elsewhere",
		write: microseconds},
	rig.IdleWait: {what: "idle delay, ms", judge: (*talker).judgeIdle},
	rig.StepInvert: {what: "inverted steps, a bit an axis", costs: "drivers then step as a pulse ends, and may lose one at each turnaround",
		write: whole},
	rig.DirectionInvert: {what: "inverted directions, a bit an axis", costs: "an axis then goes the other way, and may run into what is there",
		write: whole},
	rig.EnableInvert: {what: "inverted enable", costs: "the motors then have no current while they should move",
		switched: true},
	rig.Junction: {what: "junction deviation, mm", judge: (*talker).judgeJunction},
	rig.Inches:   {what: "reports inches", judge: (*talker).judgeInches},
	rig.SoftLimits: {what: "soft limits", costs: "it then stops with an alarm in the middle of a move, or does not where it should",
		switched: true, judge: (*talker).judgeSoftLimits},
	rig.HardLimits: {what: "limit switches stop it", costs: "a carriage that is sent too far is then not stopped by its switch, or an alarm comes where none is wired",
		switched: true},
	rig.Homing: {what: "homing", costs: "it then does not find its switches, or waits in an alarm until it has",
		switched: true, judge: (*talker).judgeHoming},
	rig.HomeInvert: {what: "axes that home at the other end, a bit an axis", costs: "an axis then looks for its switch at the end where it has none",
		write: whole},
	rig.Laser: {what: "laser mode", judge: (*talker).judgeLaser},
}

func microseconds(x float64) string { return fmt.Sprintf("\"%g us\"", x) }
func whole(x float64) string        { return fmt.Sprintf("%g", x) }
func onOff(x float64) string        { return fmt.Sprint(x != 0) }

// checkBoard compares the settings that concern all axes, tells what is to be
// known of them, and returns in words why the take must not run.
func (t *talker) checkBoard(s settings) (refused []string) {
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
		if f.refuse != "" {
			refused = append(refused, f.refuse)
		}
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
func (t *talker) states(k rig.Setting) bool {
	return t.controller.Stated[k].Known || k == rig.IdleWait && t.controller.IdleStated
}

// judge compares one setting with what the rig file states, and with what a take
// needs.
func (t *talker) judge(k rig.Setting, name string, got float64) finding {
	b, stated := boardSettings[k], t.controller.Stated[k]
	same, write := near(got, []float64{stated.Value}), b.write
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

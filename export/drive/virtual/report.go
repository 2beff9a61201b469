package virtual

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"seamrail/motion/spec/rig"
)

// reportLetters is the order in which axes are reported; X, Y and Z always.
const reportLetters = "XYZABCUVW"

// status is the report of what the board is doing: state, place in machine
// coordinates, free blocks and bytes, the line that runs if it has a number.
func (r *Rig) status() string {
	b := &r.board
	out := []byte("<" + r.state() + "|MPos:")
	counts := r.counts()
	for n, letter := range reportLetters {
		i := r.o.axisOf(byte(letter))
		if i < 0 && n > 2 {
			continue
		}
		if n > 0 {
			out = append(out, ',')
		}
		at := 0.0
		if i >= 0 {
			at = r.o.Axes[i].unitsAt(counts[i])
		}
		if r.o.Set[rig.Inches] != 0 {
			out = strconv.AppendFloat(out, at/inch, 'f', 4, 64)
			continue
		}
		out = strconv.AppendFloat(out, at, 'f', 3, 64)
	}
	out = fmt.Appendf(out, "|Bf:%d,%d", b.plan.room(), b.ring.room())
	if r.shaft.runs {
		if n := r.shaft.queue[r.shaft.first].line; n != 0 {
			out = fmt.Appendf(out, "|Ln:%d", n)
		}
	}
	return string(append(out, '>'))
}

func (o *Options) axisOf(letter byte) int {
	return slices.IndexFunc(o.Axes, func(a Axis) bool { return a.Letter == letter })
}

// state is what the board says it is doing.
func (r *Rig) state() string {
	b := &r.board
	switch {
	case b.locked:
		return "Alarm"
	case b.homing.active:
		return "Home"
	case r.jogging():
		return "Jog"
	case b.held == holding:
		return "Hold:0"
	case b.held == slowing:
		return "Hold:1"
	case r.shaft.runs, b.cycle, b.doing == pausing:
		return "Run"
	}
	return "Idle"
}

// inch is an inch in mm.
const inch = 25.4

// printSettings prints what is set, for the board and for each axis, as far as it
// has a name. Speeds are a minute, but where a name is a word of a line.
func (r *Rig) printSettings() {
	for k, name := range r.o.Names {
		r.printSetting(name, *r.boardSetting(rig.Setting(k)))
	}
	for _, line := range r.o.Others {
		r.say(line)
	}
	for i := range r.o.Axes {
		for _, s := range r.o.Axes[i].settings() {
			r.printSetting(s.name, *s.at*s.scale)
		}
	}
	r.answer(0)
}

// boardSetting is where a setting of the board is kept.
func (r *Rig) boardSetting(k rig.Setting) *float64 {
	if k == rig.Junction {
		return &r.o.JunctionDeviation
	}
	return &r.o.Set[k]
}

// axisSetting is a setting of an axis: its name, where it is kept, and what it is
// printed as per unit.
type axisSetting struct {
	name  string
	at    *float64
	scale float64
}

func (a *Axis) settings() [4]axisSetting {
	perTime := 60.0
	if strings.HasPrefix(a.SpeedName, "M") { // boards that print words print speeds a second (common practice)
		perTime = 1
	}
	return [4]axisSetting{
		{a.StepsName, &a.StepsPerUnit, 1}, {a.SpeedName, &a.Speed, perTime},
		{a.AccelerationName, &a.Acceleration, 1}, {a.TravelName, &a.Travel, 1},
	}
}

// printSetting prints "$100=80.000", or "M92 X80.000" where the name ends in
// an axis letter.
func (r *Rig) printSetting(name string, value float64) {
	if name == "" {
		return
	}
	equals := "="
	if strings.Contains(name, " ") {
		equals = ""
	}
	r.say(name + equals + strconv.FormatFloat(value, 'f', 3, 64))
}

// writeSetting obeys "$100=80", and tells whether it was that. The board hears
// nothing while it writes.
func (r *Rig) writeSetting(text string) bool {
	name, number, ok := strings.Cut(text, "=")
	if !ok {
		return false
	}
	to, scale := r.setting(name)
	v, err := strconv.ParseFloat(number, 64)
	switch {
	case to == nil:
		r.refuse(errorUnknown)
	case err != nil || !(v > 0 || v == 0 && r.isBoards(name)) || v > 1e9:
		r.refuse(errorNumber)
	default:
		r.drain(func() {
			*to = v / scale
			r.board.doing, r.board.wait = writing, r.now+r.o.settingTime()
		})
	}
	return true
}

// isBoards tells whether a setting is one of the board's, which may be 0.
func (r *Rig) isBoards(name string) bool { return slices.Contains(r.o.Names[:], name) }

// setting returns where a setting is kept, and what it is printed as per unit.
func (r *Rig) setting(name string) (*float64, float64) {
	if k := slices.Index(r.o.Names[:], name); name != "" && k >= 0 {
		return r.boardSetting(rig.Setting(k)), 1
	}
	for i := range r.o.Axes {
		for _, s := range r.o.Axes[i].settings() {
			if s.name == name && name != "" {
				return s.at, s.scale
			}
		}
	}
	return nil, 1
}

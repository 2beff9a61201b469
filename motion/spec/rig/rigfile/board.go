// Package rigfile writes a rig file from what a controller says of itself, every line
// with how it is known, and tells how such a controller differs from a rig file that is
// there already.
package rigfile

import (
	"math"
	"strings"

	"seamrail/motion/spec/rig"
)

// Board is what a controller has said of itself over a port.
type Board struct {
	From    string // where it was read, in words: "the controller at /dev/ttyUSB0"
	Kind    rig.ControllerKind
	Because []string // what it did that tells its kind
	Baud    int

	Greeting string   // the first line that it said unasked; "" = none
	Said     []string // what it said of itself besides, as it said it
	State    string   // what it reports that it does; "" = it reports nothing
	Alarm    bool     // it is in an alarm
	Reports  bool     // it answers the status byte

	SettingsLine string             // on which it printed its settings; "" = it has not
	Settings     map[string]float64 // by the names it prints
	Odd          map[string]string  // settings whose value is no number, as it prints them
	Inches       bool               // what it prints is in inches

	Letters string // of its axes, as far as it tells; "" = it does not
	Places  int    // of how many axes it reports the place; 0 = not told
	Blocks  int    // moves that it has room for at rest; 0 = not told
	Bytes   int    // bytes that it has room for at rest; 0 = not told

	Motors   int     // of a step player; 0 = not told
	Outputs  int     // of one, that it can switch
	Rows     int     // that it stores
	Shortest float64 // s, its shortest tick

	Table string // the letter of the turntable, where somebody has said; "" = nobody has
}

// Letters that controllers of words have for axes.
const wordLetters = "XYZUVWABC"

// AxisLetters are those that it prints settings for, or tells of otherwise; "" where it
// tells none.
func (b Board) AxisLetters() string {
	var out strings.Builder
	for _, l := range wordLetters {
		if b.says(b.names(string(l)).StepsName) || strings.ContainsRune(b.Letters, l) {
			out.WriteRune(l)
		}
	}
	return out.String()
}

// names are those under which it prints the settings of an axis.
func (b Board) names(letter string) rig.AxisSettings {
	switch {
	case b.SettingsLine == "":
		return rig.AxisSettings{}
	case b.Kind.Counted():
		return b.Kind.Defaults().UsualNames(letter)
	}
	return rig.AxisSettings{StepsName: "M92 " + letter, SpeedName: "M203 " + letter, AccelerationName: "M201 " + letter}
}

const (
	secondsAMinute = 60
	inch           = 25.4 // mm, exactly
)

// axisRead is what it prints for an axis, per mm or degree and second.
type axisRead struct {
	steps, speed, acceleration, travel float64 // 0 = not printed, or nothing that can be
	names                              rig.AxisSettings
}

func (b Board) axis(letter string) axisRead {
	n := b.names(letter)
	r := axisRead{names: n}
	get := func(name string) float64 {
		x, ok := b.Settings[name]
		if name == "" || !ok || math.IsNaN(x) || math.IsInf(x, 0) {
			return 0
		}
		return x
	}
	r.steps, r.speed, r.acceleration, r.travel = get(n.StepsName), get(n.SpeedName), get(n.AccelerationName), math.Abs(get(n.TravelName))
	if b.Kind.Counted() { // these print speeds a minute, those of words a second (common practice)
		r.speed /= secondsAMinute
	}
	if b.Inches {
		r.steps, r.speed, r.acceleration, r.travel = r.steps/inch, r.speed*inch, r.acceleration*inch, r.travel*inch
	}
	return r
}

// setting is one that concerns all axes, by the name its kind has for it.
func (b Board) setting(k rig.Setting) (float64, bool) {
	if !b.Kind.Counted() || b.SettingsLine == "" {
		return 0, false
	}
	x, ok := b.Settings[b.Kind.Defaults().Reports[k]]
	return x, ok
}

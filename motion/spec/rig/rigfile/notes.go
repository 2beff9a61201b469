package rigfile

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"seamrail/motion/spec/rig"
)

// What can be, beyond any rig for a table: a step a hundred mm and a step ten nm, ten
// metres a second, ten times free fall a thousand times over, a hundred metres.
const (
	fewestSteps, mostSteps = 0.01, 1e5 // steps/mm or /deg
	mostSpeed              = 1e4       // mm/s or deg/s
	mostAcceleration       = 1e6       // mm/s2 or deg/s2
	mostTravel             = 1e5       // mm or deg
	least                  = 0.001     // of any of these, what controllers print with three decimals
	// slowSpeed is below what anybody sets an axis to, and a usual speed a second taken
	// for one a minute.
	slowSpeed = 10 // mm/s or deg/s
)

// says tells whether it prints something under a name, be it nonsense.
func (b Board) says(name string) bool {
	_, number := b.Settings[name]
	_, odd := b.Odd[name]
	return name != "" && (number || odd)
}

// cannotBe says what it prints that cannot be.
func (b Board) cannotBe(name string) string {
	text, odd := b.Odd[name]
	if !odd {
		text = decimal(b.Settings[name])
	}
	equals := "="
	if strings.Contains(name, " ") {
		equals = ""
	}
	return fmt.Sprintf("it prints %s%s%s, which cannot be", name, equals, clipped(text))
}

// Notes are what to mind of what a board says: what cannot be, and what reads as if
// somebody took one unit for another.
func Notes(b Board) []string {
	var out []string
	if b.Alarm {
		out = append(out, "it is in an alarm, and moves nothing until that is cleared: by homing it, or unlocking it where it stands")
	}
	if b.Inches {
		out = append(out, "it prints its settings in inches: they are turned into mm here")
	}
	if v, ok := b.setting(rig.Inches); ok && v != 0 {
		out = append(out, fmt.Sprintf("it reports places in inches (%s=%s)", b.Kind.Defaults().Reports[rig.Inches], decimal(v)))
	}
	for _, l := range b.AxisLetters() {
		out = append(out, b.axisNotes(string(l))...)
	}
	for _, name := range slices.Sorted(maps.Keys(b.Odd)) {
		out = append(out, b.cannotBe(name))
	}
	return out
}

// axisNotes are those of an axis.
func (b Board) axisNotes(letter string) []string {
	var out []string
	r := b.axis(letter)
	for _, c := range []struct {
		name           string
		got, low, high float64
	}{
		{r.names.StepsName, r.steps, fewestSteps, mostSteps},
		{r.names.SpeedName, r.speed, 0, mostSpeed},
		{r.names.AccelerationName, r.acceleration, 0, mostAcceleration},
	} {
		if _, number := b.Settings[c.name]; number && (c.got <= 0 || c.got < c.low || c.got > c.high) {
			out = append(out, "axis "+letter+": "+b.cannotBe(c.name))
		}
	}
	if b.Kind.Counted() && r.speed > 0 && r.speed < slowSpeed {
		out = append(out, fmt.Sprintf("axis %s: %s=%s a minute is slow, %s a second: was a speed a second written there?", letter, r.names.SpeedName, decimal(b.Settings[r.names.SpeedName]), rounded(r.speed)))
	}
	return out
}

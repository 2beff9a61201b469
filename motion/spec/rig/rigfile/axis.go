package rigfile

import (
	"fmt"
	"strings"

	"seamrail/motion/spec/rig"
)

// found is an axis of the board, and what it is taken for.
type found struct {
	name, letter string
	rotary       bool
	behind       bool // it is written behind marks: what it is nobody can guess
	told         bool // the board tells of the letter
}

// axesFound are the axes, each taken for what it may be: the first letter is the rail,
// a rotary letter or else the second the turntable.
func (b Board) axesFound() []found {
	letters, told := b.AxisLetters(), true
	if letters == "" {
		letters, told = b.unnamed(), false
	}
	table := b.Table
	if table == "" && len(letters) > 1 {
		table = letters[1:2]
		if i := strings.IndexAny(letters, "ABC"); i > 0 {
			table = letters[i : i+1]
		}
	}
	var out []found
	for i, l := range letters {
		f := found{letter: string(l), told: told}
		switch {
		case f.letter == table:
			f.name, f.rotary = "table", true
		case i == 0:
			f.name = "rail"
		default:
			f.name, f.behind = "axis-"+strings.ToLower(f.letter), true
		}
		out = append(out, f)
	}
	return out
}

// unnamed are letters for the axes of a board that tells none: a step player's motors
// have numbers alone, and other boards have an X.
func (b Board) unnamed() string {
	const usual = "XABCYZUVW" // so that the first slides and the second turns
	return usual[:min(max(b.Motors, 1), len(usual))]
}

// axis writes the table of an axis.
func (w *writer) axis(f found) {
	at := w.text.Len()
	what := "motor of " + f.letter
	if w.b.Kind.PlaysSteps() {
		what = "motor"
	}
	w.table("axis."+f.name, rig.ToMeasure, "which "+what+" this is; try it slowly, and name it so")
	w.rows(w.b.axisRows(f))
	unit := f.unit()
	w.other("jerk", quoted("60000 "+unit+"/s3"), "how fast acceleration may change; left out, no limit")
	w.other("backlash", quoted("0.05 "+unit), "play that is taken up where it turns round")
	if !f.rotary {
		w.other("load", `{ mass = "2.4 kg", incline = "0 deg", friction = "3 N" }`, "weigh what moves; is the rail level?")
	}
	if f.behind {
		all := w.text.String()
		w.text.Reset()
		w.text.WriteString(all[:at] + marked(all[at:]))
	}
}

// marked puts a table behind marks.
func marked(table string) string {
	var out strings.Builder
	for line := range strings.Lines(table) {
		if line != "\n" && !strings.HasPrefix(line, "#") {
			out.WriteString("# ")
		}
		out.WriteString(line)
	}
	return out.String()
}

func (f found) unit() string {
	if f.rotary {
		return "deg"
	}
	return "mm"
}

// What stands for what is not known: slow, short and gentle, so that a rig that is tried
// with it does little. Steps are those of a usual belt, and of a turntable.
const (
	placeTravel, placeSpeed, placeAcceleration = 50, 20, 100
	placeSteps, placeTurnSteps                 = 80, 160
)

func (b Board) axisRows(f found) []row {
	r, unit := b.axis(f.letter), f.unit()
	kind := row{"kind", quoted("linear"), rig.Guessed, "it does not say whether it slides or turns"}
	if f.rotary {
		kind.value = quoted("rotary")
	}
	letter := row{"letter", quoted(f.letter), rig.Guessed, "it does not say"}
	if f.told {
		letter.known, letter.why = rig.Read, "it tells of it"
	}
	out := []row{kind, letter, b.travel(f, r)}
	if f.rotary {
		out = append(out, row{"home-line", quoted(none), rig.Guessed, "any angle will do: where it stands counts as home"})
	}
	speed, acceleration := b.limit(r.names.SpeedName, r.speed, placeSpeed, mostSpeed, unit+"/s"), b.limit(r.names.AccelerationName, r.acceleration, placeAcceleration, mostAcceleration, unit+"/s2")
	speed.key, acceleration.key = "speed", "acceleration"
	out = append(out, speed, acceleration, b.steps(f, r),
		row{"direction", quoted("forward"), rig.ToMeasure, `jog it a little: "reverse" where it goes the other way`})
	if speed.known == rig.Guessed && acceleration.known == rig.Guessed {
		out = append(out, row{"settings", fmt.Sprintf("{ acceleration = %s, speed = %s }", acceleration.value, speed.value), rig.Read,
			r.names.AccelerationName + ", " + r.names.SpeedName})
	}
	switch {
	case b.Inches:
		out = append(out, row{"reports", b.printed(rig.AxisSettings{}), rig.Guessed, "it prints inches, which are not compared with this file"})
	case b.SettingsLine != "" && r.names.StepsName != "":
		out = append(out, row{"reports", b.printed(r.names), rig.Read, "it calls them so"})
	}
	return out
}

// printed are the names of those settings of an axis that it prints.
func (b Board) printed(n rig.AxisSettings) string {
	or := func(name string) string {
		if _, ok := b.Settings[name]; !ok || name == "" {
			return quoted(none)
		}
		return quoted(name)
	}
	return fmt.Sprintf("{ steps = %s, speed = %s, acceleration = %s, travel = %s }", or(n.StepsName), or(n.SpeedName), or(n.AccelerationName), or(n.TravelName))
}

// travel is a question of a ruler, whatever the controller is set to.
func (b Board) travel(f found, r axisRead) row {
	soft, told := b.setting(rig.SoftLimits)
	length, why := float64(placeTravel), "its two ends"
	switch {
	case r.travel >= least && r.travel <= mostTravel:
		length, why = r.travel, fmt.Sprintf("its two ends; %s says %s %s, and it is not held to that", r.names.TravelName, rounded(r.travel), f.unit())
		if told && soft != 0 {
			why = fmt.Sprintf("its two ends; soft limits stop it after %s %s (%s)", rounded(r.travel), f.unit(), r.names.TravelName)
		}
	case b.says(r.names.TravelName):
		why += "; " + b.cannotBe(r.names.TravelName)
	}
	if f.rotary && soft == 0 {
		return row{"travel", quoted("endless"), rig.ToMeasure, `whether it turns without an end, or two ends such as ["-90 deg", "90 deg"]`}
	}
	return row{"travel", fmt.Sprintf(`["0 %s", "%s %s"]`, f.unit(), rounded(length), f.unit()), rig.ToMeasure, why}
}

// limit is what the board lets the axis do, which the axis need not be able to.
func (b Board) limit(name string, got, place, most float64, unit string) row {
	switch {
	case got >= least && got <= most:
		return row{"", quoted(rounded(got) + " " + unit), rig.Guessed, "what the board lets it do (" + name + "); it may do less"}
	case b.says(name):
		return row{"", quoted(decimal(place) + " " + unit), rig.ToMeasure, b.cannotBe(name)}
	}
	return row{"", quoted(decimal(place) + " " + unit), rig.ToMeasure, "the board does not say; try it, from slow to fast"}
}

func (b Board) steps(f found, r axisRead) row {
	place := placeSteps
	if f.rotary {
		place = placeTurnSteps
	}
	switch {
	case r.steps >= fewestSteps && r.steps <= mostSteps:
		return row{"steps", quoted(decimal(r.steps) + " per " + f.unit()), rig.Read, r.names.StepsName + "; hold it against a ruler"}
	case b.says(r.names.StepsName):
		return row{"steps", quoted(fmt.Sprintf("%d per %s", place, f.unit())), rig.ToMeasure, b.cannotBe(r.names.StepsName)}
	}
	return row{"steps", quoted(fmt.Sprintf("%d per %s", place, f.unit())), rig.ToMeasure, "the board does not say; from belt and motor, or a ruler"}
}

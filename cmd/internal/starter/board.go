package starter

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"seamrail/motion/spec/rig"
)

// Board is what a controller has said of itself, over a port.
type Board struct {
	From     string // where it was read
	Baud     int
	Greeting string             // the line it greeted with; "" = none
	Settings map[string]float64 // by the names it prints
	Table    string             // the letter of the turntable; "" = A if it has one, else its second
}

// boardLetters are those whose settings a buffered controller prints.
const boardLetters = "XYZABC"

// letters are those that the board prints settings for.
func (b Board) letters() string {
	var out strings.Builder
	for _, l := range boardLetters {
		if _, ok := b.axis(string(l)); ok {
			out.WriteRune(l)
		}
	}
	return out.String()
}

// read is what the board prints for one axis.
type read struct {
	steps, speed, acceleration, travel float64 // speed a minute
	names                              rig.AxisSettings
}

func (b Board) axis(letter string) (r read, ok bool) {
	r.names = rig.Buffered.Defaults().UsualNames(letter)
	steps, ok := b.Settings[r.names.StepsName]
	r.steps, r.speed, r.acceleration = steps, b.Settings[r.names.SpeedName], b.Settings[r.names.AccelerationName]
	r.travel = math.Abs(b.Settings[r.names.TravelName])
	return r, ok && r.steps > 0 && r.speed > 0 && r.acceleration > 0
}

// axes returns the letters of rail and turntable, or an error where the board
// prints nothing for them.
func (b Board) axes() (rail, table string, err error) {
	all := b.letters()
	if all == "" {
		return "", "", fmt.Errorf("it prints no steps, speed and acceleration of any axis ($100, $110, $120 and on)")
	}
	rail, rest := all[:1], all[1:]
	switch {
	case b.Table == "" && strings.Contains(rest, "A"):
		table = "A"
	case b.Table == "" && rest != "":
		table = rest[:1]
	case b.Table != "" && b.Table != rail && strings.Contains(all, b.Table):
		table = b.Table
	case b.Table != "":
		return "", "", fmt.Errorf("it prints settings for the axes %s, and the turntable cannot be %s", all, b.Table)
	}
	return rail, table, nil
}

// missing marks a value that a person has to fill in: no file with one is
// understood, and the faults name each.
const missing = `"?"`

// RigOf returns a rig file made from what a board says. What it does not say and
// nobody can guess, the travel of each axis, is left to be filled in.
func RigOf(b Board) ([]byte, error) {
	rail, table, err := b.axes()
	if err != nil {
		return nil, err
	}
	_, rest, _ := strings.Cut(rigFile, controllerBegins)
	controller, _, _ := strings.Cut(rest, controllerEnds)
	_, stand, _ := strings.Cut(rigFile, standBegins)
	var out strings.Builder
	out.WriteString(b.head())
	out.WriteString(b.controller(controllerBegins + controller))
	out.WriteString(b.railTable(rail))
	if table != "" {
		out.WriteString(b.turntable(table))
	}
	for _, l := range b.letters() {
		if letter := string(l); letter != rail && letter != table {
			out.WriteString(marked(b.other(letter)))
		}
	}
	out.WriteString(standBegins + stand)
	return []byte(out.String()), nil
}

func (b Board) head() string {
	return fmt.Sprintf(`# A rig: the machine that moves the camera and the product, begun from what this
# prints of itself: %s.
#
# FILL IN every line that has "?": the controller cannot know it, and the file is
# not understood before. Then measure what is marked MEASURE. Everything here is in
# real seconds. A limit is what the axis does without losing steps or shaking;
# begin low.

rig = "My rail and table"

# These are printed with every plan and at the top of every file for the rig.
cautions = ["This rig file is new: try each axis slowly, with a hand on the switch that cuts the motors' power."]

`, b.From)
}

// controller is the table of the starter with what was read in its place.
func (b Board) controller(text string) string {
	text = strings.Replace(text, "# seamrail new --controller KIND writes the others.\n",
		"# seamrail new --controller KIND writes the others.\n#\n"+
			"# Read from the board: greeting, junction-deviation, idle-delay, home-line, letters\n"+
			"# and all below them. The others it does not say: they are as a plain 8-bit board\n"+
			"# has them. MEASURE rate-error, and look the rest up.\n", 1)
	text = put(text, "baud", strconv.Itoa(b.Baud))
	if first, _, _ := strings.Cut(b.Greeting, " "); first != "" && len(first) <= greetingLength {
		text = put(text, "greeting", strconv.Quote(first))
	}
	if j, ok := b.of(rig.Junction); ok {
		text = put(text, "junction-deviation", quoted(decimal(j)+" mm"))
	}
	if ms, ok := b.of(rig.IdleWait); ok && ms < rig.StaysOn {
		text = put(text, "idle-delay", quoted(decimal(ms)+" ms"))
	}
	if on, ok := b.of(rig.Homing); ok && on == 0 {
		text = put(text, "home-line", quoted("none"))
	}
	text = stateLetters(text, b.letters(), "it prints settings for these")
	return b.stated(b.named(text))
}

// greetingLength is the longest greeting that a rig file takes.
const greetingLength = 40

func (b Board) of(k rig.Setting) (float64, bool) {
	v, ok := b.Settings[rig.Buffered.Defaults().Reports[k]]
	return v, ok
}

// named takes out the names of settings that the board does not print.
func (b Board) named(text string) string {
	head, names, _ := strings.Cut(text, "[controller.reports]")
	for k := range rig.SettingCount {
		if _, ok := b.of(k); !ok {
			names = put(names, k.String(), quoted("none"))
		}
	}
	return head + "[controller.reports]" + names
}

// stated states what the board printed, so that it is compared from now on.
func (b Board) stated(text string) string {
	head, rest, _ := strings.Cut(text, "# [controller.settings]\n")
	out := head + "[controller.settings]\n"
	for line := range strings.Lines(rest) {
		out += b.statedLine(line)
	}
	return out
}

func (b Board) statedLine(line string) string {
	key, _, _ := strings.Cut(strings.TrimPrefix(line, "# "), " ")
	for k := range rig.SettingCount {
		v, ok := b.of(k)
		if k.String() != key || !ok {
			continue
		}
		switch k {
		case rig.StepPulse:
			return put(line, "# "+key, quoted(decimal(v)+" us"))
		case rig.StepInvert, rig.DirectionInvert, rig.HomeInvert:
			return put(line, "# "+key, fmt.Sprint(v))
		}
		return put(line, "# "+key, fmt.Sprint(v != 0))
	}
	return line
}

// marked turns lines into remarks.
func marked(text string) string {
	var out strings.Builder
	for line := range strings.Lines(text) {
		switch {
		case line == "\n" || strings.HasPrefix(line, "#"):
			out.WriteString(line)
		default:
			out.WriteString("# " + line)
		}
	}
	return out.String()
}

func (b Board) railTable(letter string) string {
	return fmt.Sprintf("# The axis of the letter %s, taken for the rail. It is measured in millimetres: the\n# controller does not say whether it slides.\n[axis.rail]\nkind         = \"linear\"\n", letter) +
		row("# home-line", quoted("$H"+letter), `homes it alone, where "$H" would turn a table without a switch`) + b.lines(letter, "mm", `its two ends, such as ["0 mm", "400 mm"]`)
}

func (b Board) turntable(letter string) string {
	home := row("home-line", quoted("none"), "any angle will do: where it stands counts as home")
	return fmt.Sprintf("# The axis of the letter %s, taken for the turntable. It is measured in degrees: its\n# steps are of one degree, if that is how the controller was set.\n[axis.table]\nkind         = \"rotary\"\n", letter) +
		home + b.lines(letter, "deg", `"endless", or two ends such as ["-90 deg", "90 deg"]`)
}

func (b Board) other(letter string) string {
	return fmt.Sprintf("# The axis of the letter %s. Take the marks away where it has a motor, and give it a\n# name and a kind.\n[axis.axis-%s]\nkind         = \"linear\"\n", letter, strings.ToLower(letter)) +
		b.lines(letter, "mm", "its two ends")
}

// lines are what is read of an axis, and what is to be filled in.
func (b Board) lines(letter, unit, ends string) string {
	r, _ := b.axis(letter)
	travel := "the controller does not say"
	if on, told := b.of(rig.SoftLimits); r.travel > 0 && told {
		travel = fmt.Sprintf("%s says %g %s and is not held to", r.names.TravelName, r.travel, unit)
		if on != 0 {
			travel = fmt.Sprintf("soft limits stop it after %g %s (%s)", r.travel, unit, r.names.TravelName)
		}
	}
	speed, acceleration := fmt.Sprintf("%s %s/min", decimal(r.speed), unit), fmt.Sprintf("%s %s/s2", decimal(r.acceleration), unit)
	return row("letter", quoted(letter), "") +
		row("travel", missing, "FILL IN: "+ends+";") + row("", "", travel) +
		row("# home", quoted("0 "+unit), "where it stands after homing") +
		row("speed", quoted(speed), "MEASURE: what the controller lets it do; it may do less") +
		row("acceleration", quoted(acceleration), "MEASURE") +
		row("# jerk", quoted("60000 "+unit+"/s3"), "how fast acceleration may change; left out, no limit") +
		row("steps", quoted(decimal(r.steps)+" per "+unit), "as it prints them, with three decimals") +
		row("# direction", quoted("reverse"), "if it moves the wrong way") +
		row("# backlash", quoted("0.05 "+unit), "MEASURE: play that is taken up where it turns round") +
		row("settings", fmt.Sprintf("{ acceleration = %q, speed = %q }", acceleration, speed), "") +
		row("reports", printedNames(letter), "") + "\n"
}

// row is a line of an axis: a key, its value and a word on it; without a key,
// another line of words.
func row(key, value, word string) string {
	left := fmt.Sprintf("%-12s = %s", key, value)
	switch {
	case key == "":
		left = ""
	case word == "":
		return left + "\n"
	}
	return fmt.Sprintf("%-32s # %s\n", left, word)
}

// decimal prints a number as short as it goes, without an exponent.
func decimal(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

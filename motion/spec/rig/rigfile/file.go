package rigfile

import (
	"fmt"
	"strconv"
	"strings"

	"seamrail/motion/spec/rig"
)

// File returns a rig file made from what a board says, every line with how it is known.
// It is understood as it stands: what nobody can read or guess has a small value that
// holds the place, and is marked as a question.
func File(b Board) []byte {
	w := &writer{b: b}
	w.head()
	w.controller()
	for _, a := range b.axesFound() {
		w.axis(a)
	}
	w.outputs()
	return []byte(w.text.String())
}

// writer writes the lines of a rig file.
type writer struct {
	b    Board
	text strings.Builder
}

func (w *writer) say(format string, args ...any) { fmt.Fprintf(&w.text, format+"\n", args...) }

// line writes a key, its value and how it is known.
func (w *writer) line(key, value string, known rig.Known, why string) {
	w.say("%-42s %s", fmt.Sprintf("%-18s = %s", key, value), known.Remark(why))
}

// table writes the header of a table, known as it is.
func (w *writer) table(name string, known rig.Known, why string) {
	w.say("")
	if known == rig.Unmarked {
		w.say("[%s]", name)
		return
	}
	w.say("%-42s %s", "["+name+"]", known.Remark(why))
}

func (w *writer) head() {
	w.say(`# A rig: the machine that moves the camera and the product. Begun from what this
# says of itself: %s.
#
# Each line says how it is known:
#   read             the controller printed it
#   guessed          it usually is so, and nobody has looked: look it up, or try it
#   to be measured   what stands there holds a place; a ruler, a scale or a person
#                    has to tell
# Every plan names what is guessed or to be measured, until you change the word behind
# the mark to how you know it, such as "measured with a ruler". Everything here is in
# real seconds. A limit is what the axis does without losing steps or shaking: begin low.`, w.b.From)
	for _, said := range w.b.Said {
		w.say("# It says: %s", said)
	}
	for _, n := range Notes(w.b) {
		w.say("# Mind: %s", n)
	}
	w.say("")
	w.line("rig", quoted("My rig"), rig.Guessed, "a name of your own choice")
	w.line("cautions", `["This rig file is new: try each axis slowly, with a hand on the switch that cuts the motors' power."]`, rig.Guessed, "printed with every plan; say what is dangerous of yours")
}

// other writes a line that changes nothing until its mark is taken away.
// A table has no value.
func (w *writer) other(key, value, why string) {
	if value == "" {
		w.say("%-42s %s", "# "+key, rig.ToMeasure.Remark(why))
		return
	}
	w.line("# "+key, value, rig.ToMeasure, why)
}

func quoted(s string) string { return strconv.Quote(s) }

// decimal prints a number to a millionth, without an exponent, as short as it goes.
func decimal(x float64) string { return digits(x, 6) }

// rounded is decimal to a thousandth, as controllers print.
func rounded(x float64) string { return digits(x, 3) }

func digits(x float64, n int) string {
	s := strconv.FormatFloat(x, 'f', n, 64)
	return strings.TrimRight(strings.TrimRight(s, "0"), ".")
}

// outputs writes what it can switch behind marks: what hangs on an output it cannot tell.
func (w *writer) outputs() {
	if words := w.b.Kind.SwitchesBy(); len(words) > 0 {
		w.say("")
		w.other("[output.lamp]", "", "what hangs on it, if anything does; it does not say what it can switch")
		w.other("on", quoted(words[len(words)-1]), "boards of the kind switch with "+strings.Join(words, ", ")+": which pin that is, its maker says")
	}
	for n := range w.b.Outputs {
		w.say("")
		w.other(fmt.Sprintf("[output.lamp-%d]", n+1), "", fmt.Sprintf("what hangs on it; it tells of %d", w.b.Outputs))
		w.other("number", strconv.Itoa(n+1), "its outputs have numbers")
	}
}

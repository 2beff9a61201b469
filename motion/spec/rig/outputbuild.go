package rig

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
)

// Bounds of an output. A player has a byte of them; what acts after two seconds, or
// has to be held for ten, is switched by hand.
const maxOutputs = 8

var maxLate, maxPulseOn = exact.Int(2), exact.Int(10) // s

// What is filled in of an output, in s: a mechanical relay closes within some 10 ms
// and an optocoupler within one, and a lamp of diodes shows in the next frame; what
// hangs on releases and recorders is made for a finger (common practice, from memory:
// makers give other numbers, which belong into the rig file).
var (
	usualUnsure = map[Serving]exact.Rat{ServesLamp: exact.New(10, 1000), ServesShutter: exact.New(50, 1000), ServesRecorder: exact.New(50, 1000)}
	usualPulses = map[Serving]exact.Rat{ServesLamp: exact.New(50, 1000), ServesShutter: exact.New(200, 1000), ServesRecorder: exact.New(200, 1000)}
)

// reserved are words that a sync mark goes by instead of the name of an output.
var reserved = []string{"twitch", "click", "hand", none}

// outputs reads every output.
func (raw Raw) outputs(report *source.Report, prefix string, c Controller) []Output {
	var out []Output
	for _, name := range source.InOrder(raw.Output, func(o RawOutput) source.Place { return o.Place }) {
		b := outputBuilder{report, raw.Output[name], prefix + source.Join("output", name) + ".", c}
		at := strings.TrimSuffix(b.path, ".")
		before := report.Wrongs()
		CheckName(report, b.raw.Place, at, name)
		if slices.Contains(reserved, name) {
			report.Add(b.raw.Place, at, "", "must not be the word for a mark without an output", `such as "lamp"`)
		}
		o := b.build(name)
		b.alone(o, out)
		o.Faulty = report.Wrongs() > before
		out = append(out, o)
	}
	if n := len(out); n > maxOutputs {
		report.Add(raw.Output[out[maxOutputs].Name].Place, prefix+"output", fmt.Sprintf("(%d of them)", n), fmt.Sprintf("must be at most %d", maxOutputs), "")
	}
	return out
}

// outputBuilder understands one output.
type outputBuilder struct {
	report *source.Report
	raw    RawOutput
	path   string // "output.lamp."
	c      Controller
}

func (b outputBuilder) build(name string) Output {
	o := Output{Name: name}
	if b.c.Kind.PlaysSteps() {
		b.numbered(&o)
	} else {
		b.lined(&o)
	}
	o.Serves = b.serves()
	o.Late = b.time(b.raw.Late, "late", maxLate, exact.Rat{}, "not measured: as if it acted at once")
	o.Unsure = b.time(b.raw.Unsure, "late-uncertainty", maxLate, usualUnsure[o.Serves], "an assumption, until it is measured")
	o.Pulse = b.time(b.raw.Pulse, "shortest-pulse", maxPulseOn, usualPulses[o.Serves], "common practice for a "+o.Serves.String())
	return o
}

// numbered reads which of its outputs it is.
func (b outputBuilder) numbered(o *Output) {
	for _, l := range []struct {
		key  string
		text source.Text
	}{{"on", b.raw.On}, {"off", b.raw.Off}} {
		if l.text.Set {
			b.report.Wrong(l.text, b.path+l.key, "is of no use to a controller that reads no lines", "number = 1 says which of its outputs it is")
		}
	}
	if !b.raw.Number.Set {
		b.report.Missing(b.raw.Place, b.path+"number", "1")
		return
	}
	n, _ := b.report.Whole(b.raw.Number, b.path+"number", 1, maxOutputs)
	o.Number = int(n)
}

// lined reads the lines that switch it.
func (b outputBuilder) lined(o *Output) {
	if b.raw.Number.Set {
		b.report.Wrong(b.raw.Number, b.path+"number", "is of use to a step player alone", `on = "M8" says what switches it on`)
	}
	if !b.raw.On.Set {
		b.report.Missing(b.raw.Place, b.path+"on", `"M8"`)
		return
	}
	on, ok := b.line(b.raw.On, "on")
	o.On = on
	if b.raw.Off.Set {
		o.Off, ok = b.line(b.raw.Off, "off")
		if ok && o.Off == o.On {
			b.report.Wrong(b.raw.Off, b.path+"off", "must not be what switches it on", "")
		}
		return
	}
	word, _, _ := strings.Cut(on, " ")
	if o.Off = usualOff[word]; o.Off != "" {
		b.report.Default(b.path+"off", o.Off, "what ends "+word+" in RS-274/NGC")
	} else if ok {
		b.report.Missing(b.raw.Place, b.path+"off", strconv.Quote(likelyOff(on)))
	}
}

// likelyOff is what would end a word of which nobody says it: the same with none of its S
// where it has one, else the M word after it, as boards have their outputs in pairs (M62
// and M63; common practice).
func likelyOff(on string) string {
	if level, _, ok := strings.Cut(on, "S"); ok {
		return level + "S0"
	}
	word, rest, _ := strings.Cut(strings.TrimPrefix(on, "M"), " ")
	number, err := strconv.Atoi(word)
	if err != nil {
		return on
	}
	return strings.TrimSpace(fmt.Sprintf("M%d %s", number+1, rest))
}

// usualOff is what ends a spindle and a coolant (NISTIR 6556, sections 3.6.2 and
// 3.6.4).
var usualOff = map[string]string{"M3": "M5", "M4": "M5", "M7": "M9", "M8": "M9"}

// switching is an M word with the words beside it that make nothing move.
var switching = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^M0*([0-9]{1,4})((?: ?[PQS][0-9]{1,6}(?:\.[0-9]{1,3})?)*)$`)
})

// others are M words that stop or end the program, change tools or act on motors and
// heat (NISTIR 6556, sections 3.6.1 and 3.6.3; the last four from memory, as each
// firmware documents its own).
var others = []string{"0", "1", "2", "6", "30", "60", "17", "18", "84", "112"}

// line reads one that switches something: M8 for m08.
func (b outputBuilder) line(t source.Text, key string) (string, bool) {
	m := switching().FindStringSubmatch(strings.ToUpper(t.Written()))
	switch {
	case m == nil || len(t.Written()) > minLineLength:
		b.report.Wrong(t, b.path+key, "must be an M word with no other words beside it than P, Q and S", `such as "M8", or "M42 P13 S255"`)
		return "", false
	case slices.Contains(others, m[1]):
		b.report.Wrong(t, b.path+key, "must not be a word that stops, ends or lets go of the motors", `such as "M8"`)
		return "", false
	}
	line := "M" + m[1] + spaced(m[2])
	for _, r := range []byte{b.c.Status, b.c.Hold, b.c.Resume, b.c.Abort} {
		if r != 0 && strings.IndexByte(line, r) >= 0 {
			b.report.Wrong(t, b.path+key, "must not hold the real-time byte "+byteName(r), "")
			return "", false
		}
	}
	return line, true
}

// spaced writes words with one blank before each.
func spaced(words string) string {
	out := ""
	for _, r := range strings.ReplaceAll(words, " ", "") {
		if r >= 'A' {
			out += " "
		}
		out += string(r)
	}
	return out
}

func (b outputBuilder) serves() Serving {
	if !b.raw.Serves.Set {
		b.report.Default(b.path+"serves", ServesLamp.String(), "a lamp in the corner of the picture")
		return ServesLamp
	}
	w, _ := b.report.Choice(b.raw.Serves, b.path+"serves", servings[:]...)
	return Serving(max(slices.Index(servings[:], w), 0))
}

// time reads a time from 0 to most, or fills in the usual one.
func (b outputBuilder) time(t source.Text, key string, most, usual exact.Rat, why string) float64 {
	if !t.Set {
		b.report.Default(b.path+key, usual.Decimal(3)+" s", why)
		return usual.Float()
	}
	q, ok := b.report.Quantity(t, b.path+key, unit.Time)
	if ok && (q.Value.Sign() < 0 || most.Less(q.Value)) {
		b.report.Wrong(t, b.path+key, "must be from 0 s to "+most.String()+" s", "")
	}
	return q.Float()
}

// alone finds an output that another one is as well.
func (b outputBuilder) alone(o Output, others []Output) {
	for _, other := range others {
		if o.Number > 0 && o.Number == other.Number {
			b.report.Wrong(b.raw.Number, b.path+"number", "is that of output "+other.Name+" already", "free: "+freeNumbers(append(others, o)))
		}
		if o.On != "" && relay(o.On) == relay(other.On) {
			b.report.Wrong(b.raw.On, b.path+"on", "switches output "+other.Name+" on already, with "+other.On, "another word of the board")
		}
		if together(o, other) {
			b.report.Wrong(b.raw.On, b.path+"on", "ends by "+o.Off+", which ends output "+other.Name+" ("+other.On+") as well", "another word of the board, or off with a word of its own")
		}
	}
}

// together tells whether what ends one of two lines ends the other as well: both that
// RS-274/NGC has for coolant go by M9 (NISTIR 6556, section 3.6.4).
func together(o, other Output) bool {
	return o.Off != "" && o.Off == other.Off && relay(o.On) != relay(other.On)
}

// relay is what a line switches: both ways to turn a spindle are one relay.
func relay(on string) string {
	if word, _, _ := strings.Cut(on, " "); word == "M3" || word == "M4" {
		return "spindle"
	}
	return on
}

func freeNumbers(taken []Output) string {
	var free []string
	for n := 1; n <= maxOutputs; n++ {
		if !slices.ContainsFunc(taken, func(o Output) bool { return o.Number == n }) {
			free = append(free, strconv.Itoa(n))
		}
	}
	return strings.Join(free, ", ")
}

package rigfile

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"seamrail/motion/spec/rig"
)

// row is a line of a table: a key, its value and how it is known.
type row struct {
	key, value string
	known      rig.Known
	why        string
}

// controller writes the tables of the controller.
func (w *writer) controller() {
	w.table("controller", rig.Unmarked, "")
	w.rows(w.b.speaks())
	if w.b.Kind.PlaysSteps() {
		w.rows([]row{w.b.stepRate(), {"rate-error", quoted("0 %"), rig.Guessed, "its clock: drive --keep-rate measures it"}})
		return
	}
	w.rows(w.b.reads())
	w.rows(w.b.paces())
	w.rows(w.b.talks())
	if w.b.Kind.Counted() && w.b.SettingsLine != "" {
		w.settings()
	}
}

func (w *writer) rows(rows []row) {
	for _, r := range rows {
		w.line(r.key, r.value, r.known, r.why)
	}
}

// usual is a line that is as its kind usually has it.
func (b Board) usual(key, value string) row {
	return row{key, value, rig.Guessed, "as a " + b.Kind.String() + " controller usually has it"}
}

// speaks is what it takes to talk to it.
func (b Board) speaks() []row {
	c := b.Kind.Defaults()
	out := []row{
		{"kind", quoted(b.Kind.String()), rig.Read, strings.Join(b.Because, "; ")},
		{"baud", strconv.Itoa(b.Baud), rig.Read, "it answered at this speed"},
	}
	greets, _, _ := strings.Cut(b.Greeting, " ")
	switch {
	case plain(greets):
		out = append(out, row{"greeting", quoted(greets), rig.Read, fmt.Sprintf("it said %q", clipped(b.Greeting))},
			row{"resets-on-open", "true", rig.Read, "it began anew as the port opened"})
	default:
		out = append(out, row{"greeting", quoted(none), rig.Read, "it said nothing unasked that could be kept"},
			row{"resets-on-open", "true", rig.Guessed, "it was not seen; a board that is waited for in vain costs seconds, no more"})
	}
	if b.Kind.PlaysSteps() {
		out[3] = row{"resets-on-open", "true", rig.Guessed, "it was not seen; one that is waited for in vain costs a second"}
	}
	if b.Bytes >= fewestBytes && b.Bytes < mostBytes {
		return append(out, row{"receive-buffer", strconv.Itoa(b.Bytes + 1), rig.Read, fmt.Sprintf("it tells %d bytes free at rest, and one place stays free", b.Bytes)})
	}
	return append(out, b.usual("receive-buffer", strconv.Itoa(c.ReceiveBuffer)))
}

const none = "none"

// What a rig file takes as the receive buffer, which holds a usual line whole, and as the
// look-ahead.
const (
	fewestBytes, mostBytes   = 80, 1 << 20
	fewestBlocks, mostBlocks = 2, 10_000
)

// longestWord is what a rig file takes as the beginning of a greeting.
const longestWord = 40

// plain tells whether a word can be the value of a greeting.
func plain(s string) bool {
	return s != "" && len(s) <= longestWord && strings.IndexFunc(s, func(r rune) bool { return r <= ' ' || r > '~' }) < 0
}

// clipped is a text that a line has room for.
func clipped(s string) string {
	if len(s) > longestWord {
		return s[:longestWord]
	}
	return s
}

// reads is what its lines look like.
func (b Board) reads() []row {
	c := b.Kind.Defaults()
	return []row{
		b.usual("line-length", strconv.Itoa(c.LineLength)),
		b.usual("decimals", strconv.Itoa(c.Decimals)),
		b.usual("feed-decimals", strconv.Itoa(c.FeedDecimals)),
		b.usual("feed", quoted(c.Feed.String())),
		b.usual("path-feed", quoted(c.PathFeed.String())),
		b.usual("degree-as", quoted(decimal(c.DegreeAs)+" mm")),
	}
}

// usualStepRate is what 8-bit boards make at the most (common practice).
const usualStepRate = 40000

// A step player's row holds 127 steps of a motor, and lasts a millisecond, or its
// shortest tick where that is longer.
const (
	mostOfARow = 127
	rowSeconds = 1e-3
)

func (b Board) stepRate() row {
	if b.Kind.PlaysSteps() && b.Shortest > 0 {
		return row{"step-rate", quoted(fmt.Sprintf("%.0f steps/s", math.Floor(mostOfARow/max(rowSeconds, b.Shortest)))), rig.Read,
			fmt.Sprintf("%d steps in a row of %g ms", mostOfARow, max(rowSeconds, b.Shortest)*1000)}
	}
	return row{"step-rate", quoted(fmt.Sprintf("%d steps/s", usualStepRate)), rig.Guessed, "the most it makes on one axis; its makers say"}
}

// paces is what it makes of the lines.
func (b Board) paces() []row {
	c := b.Kind.Defaults()
	out := []row{b.stepRate()}
	if b.Blocks >= fewestBlocks && b.Blocks < mostBlocks {
		out = append(out, row{"blocks", strconv.Itoa(b.Blocks + 1), rig.Read, fmt.Sprintf("it tells room for %d moves at rest, and one place stays free", b.Blocks)})
	} else {
		out = append(out, b.usual("blocks", strconv.Itoa(c.Blocks)))
	}
	out = append(out, b.junction(), b.idle())
	grain, slowest := none, none
	if c.DwellGrain > 0 {
		grain = decimal(c.DwellGrain*1000) + " ms"
	}
	if c.SlowestStepRate > 0 {
		slowest = decimal(c.SlowestStepRate) + " steps/s"
	}
	return append(out,
		b.usual("slowest-step-rate", quoted(slowest)),
		b.usual("segment-rate", quoted(none)),
		row{"rate-error", quoted("0 %"), rig.Guessed, "its clock: drive --keep-rate measures it"},
		row{"step-timer", quoted(c.Timer.String()), rig.Guessed, `the clock of its step timer, such as "16 MHz" of 8-bit boards; "fine" on 32-bit ones`},
		b.usual("dwell-grain", quoted(grain)),
		b.usual("single-precision", strconv.FormatBool(c.SinglePrecision)))
}

const (
	mostJunction = 10     // mm, the most that a rig file takes
	mostIdle     = 10_000 // ms
)

func (b Board) junction() row {
	name, got, told := b.Kind.Defaults().Reports[rig.Junction], 0.0, false
	if b.Kind.Counted() {
		got, told = b.setting(rig.Junction)
	} else {
		name = "M205 J"
		if got, told = b.Settings[name]; b.Inches {
			got *= inch
		}
	}
	switch {
	case told && got >= 0 && got <= mostJunction:
		return row{"junction-deviation", quoted(rounded(got) + " mm"), rig.Read, name}
	case told:
		return row{"junction-deviation", quoted(decimal(b.Kind.Defaults().JunctionDeviation) + " mm"), rig.ToMeasure, b.cannotBe(name)}
	}
	return b.usual("junction-deviation", quoted(decimal(b.Kind.Defaults().JunctionDeviation)+" mm"))
}

func (b Board) idle() row {
	ms, told := b.setting(rig.IdleWait)
	name := b.Kind.Defaults().Reports[rig.IdleWait]
	switch {
	case told && ms >= 0 && ms < rig.StaysOn:
		return row{"idle-delay", quoted(rounded(ms) + " ms"), rig.Read, name}
	case told && ms >= 0 && ms <= mostIdle:
		return row{"idle-delay", quoted(none), rig.Read, fmt.Sprintf("%s=%s: its motors keep their current", name, decimal(ms))}
	case told:
		return row{"idle-delay", quoted(none), rig.ToMeasure, b.cannotBe(name)}
	}
	return b.usual("idle-delay", quoted(none))
}

// talks is how it is told what is out of line.
func (b Board) talks() []row {
	c := b.Kind.Defaults()
	byteOf := func(x byte) string {
		switch {
		case x == 0:
			return quoted(none)
		case x > ' ' && x <= '~':
			return quoted(string(rune(x)))
		}
		return quoted(fmt.Sprintf("0x%02x", x))
	}
	status := row{"status", quoted(none), rig.Read, "it has no report for ?"}
	if b.Reports {
		status = row{"status", quoted("?"), rig.Read, "it answers with a report"}
	}
	out := []row{status, b.usual("hold", byteOf(c.Hold)), b.usual("resume", byteOf(c.Resume)), b.usual("abort", byteOf(c.Abort)), b.homes()}
	unlock := none
	if c.UnlockLine != "" {
		unlock = c.UnlockLine
	}
	out = append(out, b.usual("unlock-line", quoted(unlock)))
	if b.SettingsLine != "" {
		out = append(out, row{"settings-line", quoted(b.SettingsLine), rig.Read, "it prints them"})
	} else {
		out = append(out, row{"settings-line", quoted(none), rig.Read, "it printed none that are understood"})
	}
	if c.JogLine != "" {
		out = append(out, row{"jog-line", quoted(c.JogLine), rig.Guessed, `"none" where it refuses a jog: it is then moved by short moves`},
			row{"jog-cancel", byteOf(c.JogCancel), rig.Guessed, "what ends a jog: try it slowly, with a hand on the switch that cuts the motors' power"})
	}
	if letters := b.AxisLetters(); letters != "" {
		out = append(out, row{"letters", quoted(letters), rig.Read, "it tells of these"})
	}
	return out
}

func (b Board) homes() row {
	c := b.Kind.Defaults()
	on, told := b.setting(rig.Homing)
	switch name := c.Reports[rig.Homing]; {
	case told && on == 0:
		return row{"home-line", quoted(none), rig.Read, name + "=0: it does not home"}
	case told:
		return row{"home-line", quoted(c.HomeLine), rig.Read, name + "=" + decimal(on) + ": it homes"}
	}
	return row{"home-line", quoted(c.HomeLine), rig.Guessed, `"none" where it has no switches to home on`}
}

// settings writes what it calls its settings, and what they are.
func (w *writer) settings() {
	w.say("\n# What it calls its own settings. They are read before anything moves.")
	w.say("[controller.reports]")
	names := w.b.Kind.Defaults().Reports
	for k := range rig.SettingCount {
		if _, told := w.b.setting(k); told {
			w.line(k.String(), quoted(names[k]), rig.Read, "it prints it")
		} else {
			w.line(k.String(), quoted(none), rig.Read, "it does not print "+names[k])
		}
	}
	w.say("\n# What they are. A take is refused where they have been changed since.")
	w.say("[controller.settings]")
	for _, r := range w.b.stated() {
		w.line(r.key, r.value, r.known, r.why)
	}
}

const (
	mostPulse = 1000 // us, the most that a rig file takes
	mostMask  = 511  // a bit for each of nine axes
)

// stated are the settings that a rig file can hold a controller to.
func (b Board) stated() []row {
	var out []row
	names := b.Kind.Defaults().Reports
	for k := range rig.SettingCount {
		v, told := b.setting(k)
		if !told {
			continue
		}
		value := ""
		switch k {
		case rig.StepPulse:
			if v >= least && v <= mostPulse {
				value = quoted(rounded(v) + " us")
			}
		case rig.StepInvert, rig.DirectionInvert, rig.HomeInvert:
			if v == math.Trunc(v) && v >= 0 && v <= mostMask {
				value = decimal(v)
			}
		case rig.EnableInvert, rig.SoftLimits, rig.HardLimits, rig.Homing:
			value = strconv.FormatBool(v != 0)
		}
		if value != "" {
			out = append(out, row{k.String(), value, rig.Read, names[k]})
		}
	}
	return out
}

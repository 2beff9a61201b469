package rig

import (
	"fmt"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
)

// Setting is one of a controller's own settings that concern all its axes.
type Setting int

// The settings, in the order in which a buffered controller prints them.
const (
	StepPulse       Setting = iota // how long a step pulse is, us
	IdleWait                       // Controller.IdleDelay, ms; StaysOn = the motors keep their current
	StepInvert                     // a bit an axis
	DirectionInvert                // a bit an axis
	EnableInvert                   // 0 or 1
	Junction                       // Controller.JunctionDeviation, mm
	Inches                         // 1: it reports places in inches
	SoftLimits                     // 1: a line beyond its travel is an alarm
	HardLimits                     // 1: a limit switch stops it
	Homing                         // 1: it homes
	HomeInvert                     // a bit an axis: which end it homes at
	Laser                          // 1: it does not stop between lines
	SettingCount
)

// StaysOn is the IdleWait of a controller whose motors never lose their current.
const StaysOn = 255

// settingKeys are what a rig file calls the settings, and what a buffered
// controller does (common practice of the kind).
var settingKeys = [SettingCount]struct{ key, usual string }{
	StepPulse:       {"step-pulse", "$0"},
	IdleWait:        {"idle-delay", "$1"},
	StepInvert:      {"step-invert", "$2"},
	DirectionInvert: {"direction-invert", "$3"},
	EnableInvert:    {"enable-invert", "$4"},
	Junction:        {"junction-deviation", "$11"},
	Inches:          {"inches", "$13"},
	SoftLimits:      {"soft-limits", "$20"},
	HardLimits:      {"hard-limits", "$21"},
	Homing:          {"homing", "$22"},
	HomeInvert:      {"home-invert", "$23"},
	Laser:           {"laser", "$32"},
}

// String prints the key of the rig file.
func (s Setting) String() string { return settingKeys[s].key }

// SettingNames are the names under which a controller prints its settings; "" =
// unknown.
type SettingNames [SettingCount]string

// usualSettings are the names of a buffered controller.
func usualSettings() (n SettingNames) {
	for s := range SettingCount {
		n[s] = settingKeys[s].usual
	}
	return n
}

// Stated is what a rig file says a setting is, as the controller prints it. The
// zero value says nothing.
type Stated struct {
	Value float64
	Known bool
}

// texts are the names as they are written, in the order of the settings.
func (raw RawBoardReports) texts() [SettingCount]source.Text {
	return [SettingCount]source.Text{
		StepPulse: raw.StepPulse, IdleWait: raw.IdleDelay, StepInvert: raw.StepInvert, DirectionInvert: raw.DirectionInvert,
		EnableInvert: raw.EnableInvert, Junction: raw.JunctionDeviation, Inches: raw.Inches, SoftLimits: raw.SoftLimits,
		HardLimits: raw.HardLimits, Homing: raw.Homing, HomeInvert: raw.HomeInvert, Laser: raw.Laser,
	}
}

// reports reads the names under which it prints its settings. One that prints
// none has no names but those that are stated.
func (b *controllerBuilder) reports(c *Controller) {
	if c.SettingsLine == "" {
		c.Reports = SettingNames{}
	}
	var given RawBoardReports
	if b.raw.Reports != nil {
		given = *b.raw.Reports
	}
	names := controllerBuilder{report: b.report, path: b.path + "reports."}
	for s, t := range given.texts() {
		if t.Set || c.Reports[s] != "" {
			names.words(t, Setting(s).String(), &c.Reports[s])
		}
	}
	if len(names.filled) > 0 {
		b.report.Default(b.path+"reports", strings.Join(names.filled, ", "), "as a "+c.Kind.String()+" controller prints them")
	}
}

const (
	// maxMask has a bit for each of nine axes.
	maxMask = 511
	// maxPulse is far beyond what any driver wants, s.
	maxPulse = 1e-3
	perMicro = 1_000_000 // us a second
)

// settings reads what it is said to be set to. What is not stated is told when
// it is read, and not compared.
func (b *controllerBuilder) settings(c *Controller) {
	if b.raw.Settings == nil {
		return
	}
	raw := *b.raw.Settings
	in := controllerBuilder{report: b.report, path: b.path + "settings."}
	if raw.StepPulse.Set {
		in.pulse(raw.StepPulse, c)
	}
	for s, t := range map[Setting]source.Text{StepInvert: raw.StepInvert, DirectionInvert: raw.DirectionInvert, HomeInvert: raw.HomeInvert} {
		if n, ok := in.mask(t, s); ok {
			c.Stated[s] = Stated{float64(n), true}
		}
	}
	for s, t := range map[Setting]source.Switch{
		EnableInvert: raw.EnableInvert, SoftLimits: raw.SoftLimits, HardLimits: raw.HardLimits, Homing: raw.Homing,
	} {
		if t.Set {
			c.Stated[s] = Stated{number(t.On), true}
		}
	}
}

func (b *controllerBuilder) pulse(t source.Text, c *Controller) {
	q, ok := b.report.Quantity(t, b.path+StepPulse.String(), unit.Time)
	if ok && (q.Value.Sign() <= 0 || q.Float() > maxPulse) {
		b.report.Wrong(t, b.path+StepPulse.String(), "must be above 0 and at most 1 ms", `such as "10 us"`)
	}
	c.Stated[StepPulse] = Stated{q.Value.Mul(exact.Int(perMicro)).Float(), true}
}

func (b *controllerBuilder) mask(t source.Text, s Setting) (int64, bool) {
	if !t.Set {
		return 0, false
	}
	return b.report.Whole(t, b.path+s.String(), 0, maxMask)
}

func number(on bool) float64 {
	if on {
		return 1
	}
	return 0
}

// letters reads which letters it has for its axes.
func (b *controllerBuilder) letters(c *Controller) {
	t := b.raw.Letters
	if !t.Set {
		return
	}
	all, seen := linearLetters+rotaryLetters, ""
	for _, l := range strings.ToUpper(t.Text) {
		if !strings.ContainsRune(all, l) || strings.ContainsRune(seen, l) {
			seen = ""
			break
		}
		seen += string(l)
	}
	if seen == "" {
		b.report.Wrong(t, b.path+"letters", fmt.Sprintf("must be some of %s, each once", all), `such as "XYZ"`)
	}
	c.Letters = seen
}

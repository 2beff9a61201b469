// Package virtual is a rig made of software: a controller with its receive
// buffer, parser, look-ahead planner, step timer and real-time bytes, the wire
// before it and the motors and limit switches behind it.
//
// It plans from what it is sent and from nothing else, with a parser, a planner
// and a step timer of its own, so that it checks what the exports foretell. It
// lives on a virtual clock, so that an hour of loops takes seconds, and every
// run of the same events is the same to the picosecond.
//
// A Rig is the board, advanced by hand. A World puts an operator beside it, for
// the driving engine; a Port lets it live in real time.
//
// One move, from a line on the wire to a step:
//
//	Write -> wire -> receive -> ring -> readByte -> obey -> follow -> move
//	-> placeBlock -> planner.add -> prepare -> generator.next -> load
//	-> finishSlice -> countsAfter
package virtual

import (
	"cmp"
	"math"

	"seamrail/motion/spec/rig"
)

// Axis is one axis of the board: its settings, and the machine behind it.
type Axis struct {
	Letter       byte
	Rotary       bool
	StepsPerUnit float64 // > 0
	Acceleration float64 // units/s², > 0
	Speed        float64 // units/s, > 0
	// Counts is what a unit counts in the path length of the board; 0 = 1.
	Counts float64

	Min, Max float64 // travel the board knows of
	Endless  bool    // no travel
	// Switches tells that there are limit switches, at Low and High.
	Switches  bool
	Low, High float64 // units, in the coordinates homing leaves behind
	Home      float64 // where homing leaves it
	// Place is where the machine stands when the board is powered, in those
	// coordinates. The board takes it for 0, or Home once homed.
	Place float64

	Mechanics Mechanics // of the machine; zero = it does what it is told

	HomeLine string  // homes it alone; "" = none does
	Travel   float64 // that soft limits are said to hold it to, units; 0 = Max - Min

	StepsName, SpeedName, AccelerationName, TravelName string // settings, "" = not printed
}

func (a *Axis) counts() float64 { return cmp.Or(a.Counts, 1) }

// Options is what a board can do and how it behaves.
type Options struct {
	Kind  rig.ControllerKind
	Axes  []Axis
	Timer Timer
	// ClockError is the executed over the true duration, less 1, of the
	// board's resonator.
	ClockError float64

	Baud              int     // bits a second both ways; 0 = instantly
	ReceiveBuffer     int     // bytes
	HostBaud          int     // bits a second that the host talks at; 0 = as the board. At another both hear garble
	HostBuffer        int     // bytes the host may have under way; 0 = no bound
	LineLength        int     // characters
	AlongAll          bool    // a per-minute feed is along all axes, not the linear ones
	Blocks            int     // places of the look-ahead, one of which stays free
	Slices            int     // slices cut ahead, the one that runs included; 0 = 5
	SliceRate         float64 // slices a second; 0 = 100
	JunctionDeviation float64 // mm
	LineSeconds       float64 // s to read and plan a line; 0 = instantly
	SettingSeconds    float64 // s to write a setting, deaf meanwhile; 0 = 20 ms
	DwellGrain        float64 // s of which its dwells last whole multiples; 0 = as long as told
	IdleDelay         float64 // s that it stands still at each end of motion before it goes on

	Greeting     string
	ResetsOnOpen bool
	BootSeconds  float64 // s from reset to greeting, deaf meanwhile
	StartsLocked bool    // in alarm after power-on
	// LatchErrors repeats the first error to every line until it is cleared.
	LatchErrors bool

	Status, Hold, Resume, Abort        byte
	HomeLine, UnlockLine, SettingsLine string
	JogLine                            string // how a line begins that moves it by hand; "" = none does
	JogCancel                          byte
	// HoldsIdle has it take a hold while nothing moves: what comes then waits. Boards
	// differ in that.
	HoldsIdle bool

	// Names are those of the settings it prints that concern all axes; "" = it
	// does not print it. Set is what they are, but for JunctionDeviation. It acts
	// by SoftLimits, once homed; by Inches, in which its reports then are, degrees
	// and all; and by Homing, if that has a name.
	Names rig.SettingNames
	Set   [rig.SettingCount]float64
	// Others are lines that it prints among its settings besides, which nothing
	// here goes by.
	Others []string
	// Answers are lines on which it prints something, and what, before its ok.
	Answers map[string][]string

	// Outputs are what it switches, by line; Numbered is how many a step player has.
	Outputs  []Output
	Numbered int

	// Forget keeps no record of the motion, only its statistics.
	Forget bool
	// Faults are what goes wrong.
	Faults []Fault
}

// The lines on which boards say what they are (common practice of the kinds).
const (
	aboutLine = "M115"
	buildLine = "$I"
)

// Defaults of Of for what a rig file does not say.
const (
	// defaultLineSeconds is what a common 8-bit board needs for a line, well
	// under the 1.7 ms in which 20 bytes come at 115200 baud (common practice).
	defaultLineSeconds = 300e-6
	// measuredLineSeconds is what the build that was measured takes for a move
	// (testdata/reference/takes).
	measuredLineSeconds = 20e-6
	// defaultBootSeconds is how long a boot loader waits for a new program
	// before it starts the old one (common practice).
	defaultBootSeconds = 1.5
	defaultSliceRate   = 100
	defaultSlices      = 5
	// defaultSettingSeconds lies within the 5 to 40 ms that were measured.
	defaultSettingSeconds = 20e-3
	// switchMargin is how far beyond the travel the limit switches of a
	// virtual rig sit, in mm or degrees.
	switchMargin = 2
	// usualPulse is the step pulse that common boards are set to, us.
	usualPulse = 10
)

// Of returns a board as the rig file describes it: a timer that counts as it says,
// late by the rate error that was measured, no slower than its slowest step rate. It
// stands at its home, which a board that does not home takes for where it is.
func Of(r rig.Rig) Options {
	c := r.Controller
	o := Options{
		Kind: c.Kind, ClockError: c.RateError, Baud: c.Baud, ReceiveBuffer: c.ReceiveBuffer,
		LineLength: c.LineLength, AlongAll: c.PathFeed == rig.AlongAll, Blocks: c.Blocks,
		JunctionDeviation: c.JunctionDeviation, LineSeconds: defaultLineSeconds,
		DwellGrain: c.DwellGrain, IdleDelay: c.IdleDelay,
		Greeting: c.Greeting, ResetsOnOpen: c.ResetsOnOpen, BootSeconds: defaultBootSeconds,
		StartsLocked: c.HomeLine != "" && c.UnlockLine != "",
		Status:       c.Status, Hold: c.Hold, Resume: c.Resume, Abort: c.Abort,
		HomeLine: c.HomeLine, UnlockLine: c.UnlockLine, SettingsLine: c.SettingsLine,
		JogLine: c.JogLine, JogCancel: c.JogCancel,
		Names: c.Reports, Set: setTo(r),
	}
	o.Answers = map[string][]string{aboutLine: {"A rig made of software"}}
	if c.Kind.Counted() && c.SettingsLine != "" {
		o.Answers = map[string][]string{buildLine: {"[VER:a rig made of software]"}}
		o.Others = []string{"$10=1", "$12=0.002", "$24=25.000"} // what reports hold, arcs, how it looks for switches
	}
	if c.Timer.Hz > 0 {
		o.Timer, o.LineSeconds = sixteenBits(c.Timer.Hz), measuredLineSeconds
	}
	if c.SegmentRate > 0 {
		o.LineSeconds = 1 / c.SegmentRate
	}
	if c.SlowestStepRate > 0 && o.Timer.Hz == 0 {
		o.Timer.Slowest = 1 / c.SlowestStepRate
	}
	for _, a := range r.Axes {
		if a.Letter != "" {
			o.Axes = append(o.Axes, axisOf(a, c))
		}
	}
	for _, out := range r.Outputs {
		o.Outputs = append(o.Outputs, Output{Name: out.Name, On: out.On, Off: out.Off, Number: out.Number})
		o.Numbered = max(o.Numbered, out.Number)
	}
	return o
}

// setTo is what the board is set to: what the rig file states, else what keeps
// to the plan.
func setTo(r rig.Rig) (set [rig.SettingCount]float64) {
	c := r.Controller
	set[rig.StepPulse], set[rig.IdleWait] = usualPulse, rig.StaysOn
	if c.IdleDelay > 0 {
		set[rig.IdleWait] = c.IdleDelay * 1000
	}
	for _, a := range r.Axes {
		if c.HomeLineOf(a) != "" {
			set[rig.Homing] = 1
		}
	}
	for k, s := range c.Stated {
		if s.Known {
			set[k] = s.Value
		}
	}
	return set
}

func axisOf(a rig.Axis, c rig.Controller) Axis {
	out := Axis{
		Letter: a.Letter[0], Rotary: a.Kind == rig.Rotary, StepsPerUnit: a.StepsPerUnit.Float(),
		Acceleration: a.MaxAcc, Speed: a.MaxSpeed, Min: a.Min, Max: a.Max, Endless: a.Endless, Home: a.Home,
		Place: a.Home, HomeLine: a.HomeLine,
		StepsName: a.Settings.StepsName, SpeedName: a.Settings.SpeedName,
		AccelerationName: a.Settings.AccelerationName, TravelName: a.Settings.TravelName,
	}
	if a.Settings.Acceleration > 0 {
		out.Acceleration = a.Settings.Acceleration
	}
	if a.Settings.Speed > 0 {
		out.Speed = a.Settings.Speed
	}
	if c.StepRate > 0 {
		out.Speed = math.Min(out.Speed, c.StepRate/out.StepsPerUnit)
	}
	if out.Rotary {
		out.Counts = c.DegreeAs
	}
	if c.HomeLineOf(a) != "" && !a.Endless {
		out.Switches, out.Low, out.High = true, a.Min-switchMargin, a.Max+switchMargin
	}
	return out
}

func (o *Options) sliceSeconds() float64 { return 1 / cmp.Or(o.SliceRate, defaultSliceRate) }

func (o *Options) settingTime() instant {
	return lasting(cmp.Or(o.SettingSeconds, defaultSettingSeconds))
}

func (o *Options) slices() int { return cmp.Or(o.Slices, defaultSlices) }

// drift returns how long the board takes over a nominal time.
func (o *Options) drift(i instant) instant {
	if o.ClockError == 0 {
		return i
	}
	return lasting(i.seconds() * (1 + o.ClockError))
}

// check panics when the options describe no board.
func (o *Options) check() {
	switch {
	case len(o.Axes) == 0 || len(o.Axes) > maxAxes:
		panic("virtual: a board has from 1 to 9 axes")
	case o.Kind.PlaysSteps():
		return
	case o.Blocks < 3:
		panic("virtual: a look-ahead has 3 places or more")
	case o.ReceiveBuffer < 2 || o.LineLength < 1:
		panic("virtual: a board reads lines")
	}
}

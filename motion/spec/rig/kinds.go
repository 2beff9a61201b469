package rig

import (
	"slices"

	"seamrail/motion/base/source"
)

// kindNames are the words of the key kind, in the order of the kinds.
var kindNames = []string{Buffered.String(), Lockstep.String(), StepPlayer.String()}

// KindNames lists the kinds of controller by name.
func KindNames() []string { return slices.Clone(kindNames) }

// KindNamed returns the kind with a name, and false if there is none.
func KindNamed(name string) (ControllerKind, bool) {
	i := slices.Index(kindNames, name)
	return ControllerKind(max(i, 0)), i >= 0
}

// Where a kind says nothing. Line length and decimals are what every controller
// reads; the rest is common practice.
const (
	defaultLineLength = 80
	defaultDecimals   = 3
	defaultBaud       = 115200
	defaultReceive    = 128  // bytes
	defaultBlocks     = 16   // blocks of look-ahead
	defaultJunction   = 0.01 // mm
	defaultDegreeAs   = 1    // mm
	// slowestTimer is measured on the host build of an open 8-bit firmware: its
	// 16-bit step timer goes no slower (see testdata/reference).
	slowestTimer = 30.5 // steps/s
)

// Defaults returns a controller of the kind with everything as it usually is:
// what a rig file gets that names the kind and no more.
//
// A buffered one has real-time bytes and settings it prints; a lockstep one is
// told the pace as RS-274/NGC does by default, in units a minute along the
// linear axes. A step player has no words of its own: its framing says all.
func (k ControllerKind) Defaults() Controller {
	c := Controller{
		Kind: k, DegreeAs: defaultDegreeAs, LineLength: defaultLineLength,
		Decimals: defaultDecimals, FeedDecimals: defaultDecimals,
		Baud: defaultBaud, ReceiveBuffer: defaultReceive,
		Blocks: defaultBlocks, JunctionDeviation: defaultJunction,
		ResetsOnOpen: true,
	}
	switch k {
	case Buffered:
		c.PathFeed = AlongAll
		c.SlowestStepRate = slowestTimer
		c.Timer, c.DwellGrain, c.SinglePrecision = StepTimer{Hz: usualTick, Known: true}, usualGrain, true
		c.Status, c.Hold, c.Resume, c.Abort = '?', '!', '~', 0x18
		c.HomeLine, c.UnlockLine, c.SettingsLine = "$H", "$X", "$$"
		c.Reports = usualSettings()
	case Lockstep:
		c.Feed = PerMinute
		c.HomeLine = "G28"
	}
	return c
}

// kind reads the kind, buffered unless it says otherwise.
func (raw RawController) kind(report *source.Report, path string) ControllerKind {
	if !raw.Kind.Set {
		report.Default(path+"kind", Buffered.String(), "the commonest")
		return Buffered
	}
	word, _ := report.Choice(raw.Kind, path+"kind", kindNames...)
	k, _ := KindNamed(word)
	return k
}

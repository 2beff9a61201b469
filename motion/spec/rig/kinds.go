package rig

import (
	"slices"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/turntable/spin"
)

// kindRow is what the rest of the program may ask of a kind. Nobody asks a controller
// which kind it is: what one of a new kind does is said in its row, and falls through
// nowhere.
type kindRow struct {
	name    string // in the rig file
	plays   bool   // plays a table of steps; it reads no lines and plans nothing
	single  bool   // reads one line, answers, and reads the next
	counted bool   // its receive buffer is counted, and what it prints of itself is known
	// What of its outputs it usually has, by the words that switch them on, and what
	// comes of switching one while motors turn (common practice, from memory, as boards
	// differ).
	outputs   []string
	switching string
	byHand    bool // two ends and a time are set on it and it is started by hand; nothing is sent to it
	usual     func(*Controller)
}

// kinds are all of them, in their order: a line each.
var kinds = [...]kindRow{
	Buffered: {name: "buffered", counted: true, usual: usuallyBuffered,
		outputs: []string{"M3", "M4", "M8"}, switching: "it first lets all motion before it end"},
	Lockstep: {name: "lockstep", single: true, usual: usuallyLockstep,
		outputs: []string{"M42", "M106"}, switching: "some switch at once, some let all motion end first"},
	StepPlayer: {name: "step-player", plays: true, usual: func(*Controller) {},
		switching: "it switches when the rows before have been played"},
	TwoEnds: {name: "two-ends", byHand: true, usual: usuallyByHand},
}

// String is the name of the kind in a rig file.
func (k ControllerKind) String() string { return kinds[k].name }

// PlaysSteps tells whether it plays a table of steps and has no planner of its own.
func (k ControllerKind) PlaysSteps() bool { return kinds[k].plays }

// OneByOne tells whether it takes one line, and the next when it has answered.
func (k ControllerKind) OneByOne() bool { return kinds[k].single }

// Counted tells whether it reads lines into a receive buffer that is counted, and
// prints settings that are known.
func (k ControllerKind) Counted() bool { return kinds[k].counted }

// Driven tells whether anything is sent to it. One that is not is set and started by
// hand: it has no steps, no programs and no settings that anyone here knows, and it goes
// by its own ramp (Controller.Buttons).
func (k ControllerKind) Driven() bool { return !kinds[k].byHand }

// DrivenKinds lists the kinds of controller that something is sent to.
func DrivenKinds() []ControllerKind {
	return slices.DeleteFunc(Kinds(), func(k ControllerKind) bool { return !k.Driven() })
}

// Kinds lists the kinds of controller.
func Kinds() []ControllerKind {
	out := make([]ControllerKind, len(kinds))
	for i := range out {
		out[i] = ControllerKind(i)
	}
	return out
}

// KindNames lists the kinds of controller by name.
func KindNames() []string {
	var out []string
	for _, k := range kinds {
		out = append(out, k.name)
	}
	return out
}

// KindNamed returns the kind with a name, and false if there is none.
func KindNamed(name string) (ControllerKind, bool) {
	i := slices.Index(KindNames(), name)
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
	kinds[k].usual(&c)
	return c
}

// usuallyByHand has nothing of what is sent: what its buttons offer nobody can guess.
func usuallyByHand(c *Controller) {
	*c = Controller{Kind: c.Kind, Buttons: Buttons{Pauses: Offers{{}}, Trips: Trips{ByHand: true}, Pace: exact.Int(1), Press: spin.Reaction}}
}

func usuallyBuffered(c *Controller) {
	c.PathFeed = AlongAll
	c.SlowestStepRate = slowestTimer
	c.Timer, c.DwellGrain, c.SinglePrecision = StepTimer{Hz: usualTick, Known: true}, usualGrain, true
	c.Status, c.Hold, c.Resume, c.Abort = '?', '!', '~', 0x18
	c.HomeLine, c.UnlockLine, c.SettingsLine = "$H", "$X", "$$"
	c.JogLine, c.JogCancel = "$J=", 0x85 // as open 8-bit firmware documents them (from memory, as no board is at hand)
	c.Reports = usualSettings()
}

func usuallyLockstep(c *Controller) {
	c.Feed = PerMinute
	c.HomeLine = "G28"
}

// kind reads the kind, buffered unless it says otherwise.
func (raw RawController) kind(report *source.Report, path string) ControllerKind {
	if !raw.Kind.Set {
		report.Default(path+"kind", Buffered.String(), "the commonest")
		return Buffered
	}
	word, _ := report.Choice(raw.Kind, path+"kind", KindNames()...)
	k, _ := KindNamed(word)
	return k
}

package rig

import "seamrail/motion/base/source"

// RawController is a [controller] table. Every key but kind may be left out:
// the kind then says.
type RawController struct {
	Place source.Place `toml:"-"`
	Kind  source.Text  `toml:"kind" jsonschema:"enum=buffered,enum=lockstep,enum=step-player,enum=two-ends" jsonschema_description:"How it takes its work: buffered counts the characters it holds and has real-time bytes; lockstep answers line by line; a step-player plays a table of steps; two-ends is set and started by hand, with buttons of its own."`

	Feed         source.Text `toml:"feed" jsonschema:"enum=inverse-time,enum=per-minute" jsonschema_description:"How a block is timed: inverse-time (G93) or per-minute (G94)."`
	PathFeed     source.Text `toml:"path-feed" jsonschema:"enum=linear,enum=all" jsonschema_description:"Which path a per-minute feed is measured along: that of the linear axes, or of all."`
	DegreeAs     source.Text `toml:"degree-as" jsonschema:"example=1 mm" jsonschema_description:"What a degree counts as in the length of a path of all axes."`
	LineLength   source.Text `toml:"line-length" jsonschema:"example=80" jsonschema_description:"Longest line it reads, in characters, 40 to 256."`
	Decimals     source.Text `toml:"decimals" jsonschema:"example=3" jsonschema_description:"Decimals of a coordinate, 0 to 6."`
	FeedDecimals source.Text `toml:"feed-decimals" jsonschema:"example=3" jsonschema_description:"Decimals of a feed, 0 to 6."`

	Baud          source.Text `toml:"baud" jsonschema:"example=115200" jsonschema_description:"Bits a second on the wire."`
	ReceiveBuffer source.Text `toml:"receive-buffer" jsonschema:"example=128" jsonschema_description:"Bytes it holds before it has read them."`

	StepRate          source.Text `toml:"step-rate" jsonschema:"example=40000 steps/s" jsonschema_description:"Most steps a second it makes on one axis, or none."`
	SlowestStepRate   source.Text `toml:"slowest-step-rate" jsonschema:"example=30.5 steps/s" jsonschema_description:"Steps a second that it does not go below, or none."`
	Blocks            source.Text `toml:"blocks" jsonschema:"example=16" jsonschema_description:"Blocks that its look-ahead holds."`
	SegmentRate       source.Text `toml:"segment-rate" jsonschema:"example=200" jsonschema_description:"Most blocks a second that it takes, or none."`
	JunctionDeviation source.Text `toml:"junction-deviation" jsonschema:"example=0.01 mm" jsonschema_description:"How far it may round a corner without slowing down."`
	RateError         source.Text `toml:"rate-error" jsonschema:"example=0.07 %" jsonschema_description:"By how much what it plays takes longer than it was told; measured once over a long run."`

	StepTimer       source.Text   `toml:"step-timer" jsonschema:"example=16 MHz" jsonschema_description:"Ticks of the 16-bit counter that times its steps, as 16 MHz; fine if a tick is too short to matter; unknown."`
	DwellGrain      source.Text   `toml:"dwell-grain" jsonschema:"example=50 ms" jsonschema_description:"Time of which its dwells last whole multiples, or none."`
	IdleDelay       source.Text   `toml:"idle-delay" jsonschema:"example=25 ms" jsonschema_description:"Time it waits at the end of each motion before it takes the current off its motors; none if they stay on."`
	SinglePrecision source.Switch `toml:"single-precision" jsonschema_description:"Whether it counts positions with the 24 bits of a single-precision number."`

	Greeting     source.Text   `toml:"greeting" jsonschema:"example=ready" jsonschema_description:"How the line begins that it greets with, or none."`
	ResetsOnOpen source.Switch `toml:"resets-on-open" jsonschema_description:"Whether opening the port starts it anew."`
	Status       source.Text   `toml:"status" jsonschema:"example=?" jsonschema_description:"Real-time byte that asks for a status report: a character, a byte such as 0x18, or none."`
	Hold         source.Text   `toml:"hold" jsonschema:"example=!" jsonschema_description:"Real-time byte that slows it down and holds, or none."`
	Resume       source.Text   `toml:"resume" jsonschema:"example=~" jsonschema_description:"Real-time byte that goes on after a hold, or none."`
	Abort        source.Text   `toml:"abort" jsonschema:"example=0x18" jsonschema_description:"Real-time byte that drops everything, or none."`
	HomeLine     source.Text   `toml:"home-line" jsonschema:"example=$H" jsonschema_description:"Line that homes it, or none if it has no switches to home on."`
	UnlockLine   source.Text   `toml:"unlock-line" jsonschema:"example=$X" jsonschema_description:"Line that clears an alarm, or none."`
	SettingsLine source.Text   `toml:"settings-line" jsonschema:"example=$$" jsonschema_description:"Line that makes it print its settings, or none."`

	JogLine   source.Text `toml:"jog-line" jsonschema:"example=$J=" jsonschema_description:"How a line begins that moves it by hand, apart from programs, or none."`
	JogCancel source.Text `toml:"jog-cancel" jsonschema:"example=0x85" jsonschema_description:"Real-time byte that ends such moves and forgets them, or none."`

	Letters  source.Text       `toml:"letters" jsonschema:"example=XYZ" jsonschema_description:"The letters it has for its axes; left out, it is not known."`
	Settings *RawBoardSettings `toml:"settings" jsonschema_description:"What it is set to; what is left out is not compared."`
	Reports  *RawBoardReports  `toml:"reports" jsonschema_description:"Names under which it prints its settings."`

	Buttons *RawButtons `toml:"buttons" jsonschema_description:"two-ends: what its buttons offer."`
	Ramp    *RawRamp    `toml:"ramp" jsonschema_description:"two-ends: how it gathers speed at the beginning of a way and loses it at the end."`
}

// RawSettings is a settings = { ... } value of an axis: what the controller has
// been set to.
type RawSettings struct {
	Place        source.Place `toml:"-"`
	Acceleration source.Text  `toml:"acceleration" jsonschema:"example=3000 mm/s2" jsonschema_description:"Acceleration that its planner uses for the axis."`
	Speed        source.Text  `toml:"speed" jsonschema:"example=400 mm/s" jsonschema_description:"Speed that it caps the axis at."`
}

// RawReports is a reports = { ... } value of an axis: under which names the
// controller prints its settings.
type RawReports struct {
	Place        source.Place `toml:"-"`
	Steps        source.Text  `toml:"steps" jsonschema:"example=$100" jsonschema_description:"Name of its steps a millimetre or degree, or none."`
	Speed        source.Text  `toml:"speed" jsonschema:"example=$110" jsonschema_description:"Name of its greatest speed a minute, or none."`
	Acceleration source.Text  `toml:"acceleration" jsonschema:"example=$120" jsonschema_description:"Name of its acceleration, or none."`
	Travel       source.Text  `toml:"travel" jsonschema:"example=$130" jsonschema_description:"Name of its greatest travel, which soft limits hold it to, or none."`
}

package rig

import "seamrail/motion/base/source"

// RawButtons is a [controller.buttons] table: what a rig that is started by hand offers.
type RawButtons struct {
	Place      source.Place `toml:"-"`
	Times      source.Texts `toml:"times" jsonschema:"required" jsonschema_description:"Which times of one way its buttons offer: values such as 10 s, or rows such as 2 s to 60 s in steps of 1 s."`
	Pauses     source.Texts `toml:"pauses" jsonschema_description:"Which rests at an end they offer, where it turns round by itself; left out, it turns round at once."`
	RoundTrips source.Texts `toml:"round-trips" jsonschema_description:"How often it goes there and back after one press: numbers such as 5, rows such as 1 to 20, endless; none if each way has a press of its own."`
	Measured   source.Texts `toml:"measured" jsonschema_description:"What a stopwatch said of its own clock, such as 20 rounds of 24 s in 482.1 s, where 24 s is what its buttons say of a round."`
	Press      source.Text  `toml:"press" jsonschema:"example=0.1 s" jsonschema_description:"Standard uncertainty of one press, of its button or of a stopwatch."`
	Lag        source.Text  `toml:"lag" jsonschema:"example=0.2 s" jsonschema_description:"Time from the press to the motion."`
	LagSpread  source.Text  `toml:"lag-spread" jsonschema:"example=0.05 s" jsonschema_description:"Standard uncertainty of that time."`
}

// RawRamp is a [controller.ramp] table: how it gathers speed and loses it.
type RawRamp struct {
	Place     source.Place `toml:"-"`
	Law       source.Text  `toml:"law" jsonschema:"required,example=trapezoidal,example=seven-segment" jsonschema_description:"The motion law of each way, by name."`
	Time      source.Text  `toml:"time" jsonschema:"example=0.8 s" jsonschema_description:"trapezoidal and seven-segment laws: real time of each ramp, however long the way takes."`
	Share     source.Text  `toml:"share" jsonschema:"example=1/5" jsonschema_description:"The same as a share of the time of the way; above 0, at most 1/2. Instead of time."`
	JerkShare source.Text  `toml:"jerk-share" jsonschema:"example=1/4" jsonschema_description:"seven-segment law: share of the ramp in which acceleration builds up, and again dies down; above 0, at most 1/2."`
}

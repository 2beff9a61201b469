package rig

import "seamrail/motion/base/source"

// RawStand is a [stand.NAME] table.
type RawStand struct {
	Place        source.Place             `toml:"-"`
	Direction    source.Text              `toml:"direction" jsonschema:"enum=clockwise,enum=anticlockwise" jsonschema_description:"Which way it turns, seen from above."`
	StartInPhase source.Switch            `toml:"start-in-phase" jsonschema_description:"Whether it can be started so that a chosen face is in front at frame 0."`
	Drift        source.Text              `toml:"drift" jsonschema:"example=1 %" jsonschema_description:"How far its speed wanders while it runs, either way, as a share of it."`
	Reaction     source.Text              `toml:"reaction" jsonschema:"example=0.1 s" jsonschema_description:"Standard uncertainty of one press of the stopwatch."`
	Speed        map[string]RawStandSpeed `toml:"speed" jsonschema:"required" jsonschema_description:"Its speeds, each under its own name, and how long a turn takes at each."`
}

// RawStandSpeed is a [stand.NAME.speed.NAME] table: what was measured, or a
// period with its uncertainty.
type RawStandSpeed struct {
	Place       source.Place `toml:"-"`
	Measured    source.Texts `toml:"measured" jsonschema_description:"What a stopwatch said, such as 20 turns in 412.3 s, or after how many captured frames a mark on the stand was back, such as 3 turns in 7341 frames. Several are better than one."`
	FilmedAt    source.Text  `toml:"filmed-at" jsonschema:"example=119.88" jsonschema_description:"Capture rate at which frames were counted, frames a second."`
	Period      source.Text  `toml:"period" jsonschema:"example=20.4 s" jsonschema_description:"Real seconds of one turn, where it is known already."`
	Uncertainty source.Text  `toml:"uncertainty" jsonschema:"example=0.05 s" jsonschema_description:"Standard uncertainty of the period."`
}

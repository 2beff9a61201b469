package rig

import "seamrail/motion/base/source"

// RawOutput is an [output.NAME] table.
type RawOutput struct {
	Place  source.Place `toml:"-"`
	On     source.Text  `toml:"on" jsonschema:"example=M8,example=M3 S1000" jsonschema_description:"Line that switches it on, a word of RS-274/NGC: M3 or M4 of the spindle, M7 or M8 of the coolant, or another M word that the board has."`
	Off    source.Text  `toml:"off" jsonschema:"example=M9" jsonschema_description:"Line that switches it off; left out, M5 after M3 and M4, M9 after M7 and M8."`
	Number source.Text  `toml:"number" jsonschema:"example=1" jsonschema_description:"Which of a step player's outputs it is, 1 to 8, in place of lines."`
	Serves source.Text  `toml:"serves" jsonschema:"enum=lamp,enum=shutter,enum=recorder" jsonschema_description:"What hangs on it: a lamp in the picture, the release of the camera, the start of a recorder."`
	Late   source.Text  `toml:"late" jsonschema:"example=15 ms" jsonschema_description:"How long after it is switched what hangs on it has acted: a relay closes, a lamp glows."`
	Unsure source.Text  `toml:"late-uncertainty" jsonschema:"example=5 ms" jsonschema_description:"How far that may be out, either way."`
	Pulse  source.Text  `toml:"shortest-pulse" jsonschema:"example=0.1 s" jsonschema_description:"The shortest time that it has to be on for what hangs on it to act."`
}

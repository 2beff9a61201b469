package shot

import "seamrail/motion/base/source"

// RawCue is one of [[cue]].
type RawCue struct {
	Place    source.Place `toml:"-"`
	Name     source.Text  `toml:"name" jsonschema:"required,example=pebble" jsonschema_description:"What happens."`
	Hand     source.Text  `toml:"hand" jsonschema:"example=left" jsonschema_description:"Whose hand does it; with two, each has a side of the click track."`
	At       source.Text  `toml:"at" jsonschema:"required,example=72 frames,example=3 s,example=turnaround,example=far-end,example=near-end,example=beat 9" jsonschema_description:"When it is to be seen: a time on screen from the first frame, one by the music, or turnaround, far-end or near-end of an axis."`
	Axis     source.Text  `toml:"axis" jsonschema:"example=rail" jsonschema_description:"The axis that turns round; left out, the only one that does."`
	Which    source.Text  `toml:"which" jsonschema:"example=1" jsonschema_description:"The first time in the loop that it does, or the second and so on."`
	After    source.Text  `toml:"after" jsonschema:"example=6 frames" jsonschema_description:"So much later than at, on screen; below 0 earlier."`
	Fall     source.Text  `toml:"fall" jsonschema:"example=300 mm" jsonschema_description:"How far it falls from the hand or the spout. What is light for its size falls slower: measure it."`
	Flow     source.Text  `toml:"flow" jsonschema:"example=200 mm/s" jsonschema_description:"How fast it leaves the spout, downwards; left out, it is let go at rest."`
	Lead     source.Text  `toml:"lead" jsonschema:"example=0.35 s" jsonschema_description:"Real time from the hand's move until it leaves the hand or the spout."`
	Measured source.Text  `toml:"measured" jsonschema:"example=0.62 s" jsonschema_description:"Real time from the hand's move until it lands, in place of fall, flow and lead."`
	Reaction source.Text  `toml:"reaction" jsonschema:"example=0.2 s" jsonschema_description:"Real time from being told until the hand moves."`
	Beats    source.Text  `toml:"beats" jsonschema:"example=3" jsonschema_description:"How many beats are counted down to it."`
	Beat     source.Text  `toml:"beat" jsonschema:"example=0.5 s" jsonschema_description:"Real time from one beat to the next."`
	Rounds   source.Texts `toml:"rounds" jsonschema:"example=2,example=each" jsonschema_description:"The rounds in which it happens, the first being 1, or \"each\"; left out, once, in the round to keep."`
	Leaves   source.Text  `toml:"leaves" jsonschema:"example=nothing,example=a fuller cup" jsonschema_description:"What it leaves in the picture by the end of the loop, or \"nothing\": that is not there in the first frame."`
}

// pairs are the keys by name.
func (raw RawCue) pairs() map[string]source.Text {
	return map[string]source.Text{
		"name": raw.Name, "hand": raw.Hand, "at": raw.At, "axis": raw.Axis, "which": raw.Which, "after": raw.After,
		"fall": raw.Fall, "flow": raw.Flow, "lead": raw.Lead, "measured": raw.Measured,
		"reaction": raw.Reaction, "beats": raw.Beats, "beat": raw.Beat,
	}
}

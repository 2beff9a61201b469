package sequence

import (
	"seamrail/motion/base/source"
	"seamrail/motion/music"
)

// Raw is a sequence as it is written, before anything is understood.
type Raw struct {
	Place     source.Place  `toml:"-"`
	Sequence  source.Text   `toml:"sequence" jsonschema:"example=Fernhollow lantern" jsonschema_description:"What the clip is called."`
	Playback  source.Text   `toml:"playback" jsonschema:"example=23.976" jsonschema_description:"Frames a second of the timeline, which every shot must have; left out, those of the first shot."`
	Timecode  source.Text   `toml:"timecode" jsonschema:"example=01:00:00:00" jsonschema_description:"Label of the clip's first frame."`
	DropFrame source.Switch `toml:"drop-frame" jsonschema_description:"Drop-frame labels, at 29.97 or 59.94."`
	Setup     source.Texts  `toml:"setup" jsonschema_description:"Set-up files, as seen from this one, of each shot that names none itself; of several, a later one lies over an earlier one."`
	Takes     source.Text   `toml:"takes" jsonschema:"example=3" jsonschema_description:"Takes wanted of each shot, where it does not say."`
	Music     *music.Raw    `toml:"music" jsonschema_description:"Music or a list of markers that cuts are named by: beats, bars, markers, from the clip's first frame."`
	Card      RawCard       `toml:"card" jsonschema_description:"What the camera records, and on what."`
	Day       RawDay        `toml:"day" jsonschema_description:"What takes time between takes."`
	Shot      []RawShot     `toml:"shot" jsonschema:"required" jsonschema_description:"The shots, in the order they are seen."`
}

// RawCard is the [card] table.
type RawCard struct {
	Place     source.Place `toml:"-"`
	Bitrate   source.Text  `toml:"bitrate" jsonschema:"example=400 Mbit/s" jsonschema_description:"What the camera writes in a real second of recording."`
	FrameSize source.Text  `toml:"frame-size" jsonschema:"example=2.4 MB" jsonschema_description:"What it writes for a captured frame; instead of bitrate, or beside it for the stills of a time-lapse."`
	Size      source.Text  `toml:"size" jsonschema:"example=128 GB" jsonschema_description:"What one card holds."`
	Lead      source.Text  `toml:"lead" jsonschema:"example=2 s" jsonschema_description:"Real time that it records before the rig moves, and again after it rests."`
}

// RawDay is the [day] table.
type RawDay struct {
	Place        source.Place `toml:"-"`
	RigChange    source.Text  `toml:"rig-change" jsonschema:"example=30 min" jsonschema_description:"Real time that a change of the rig takes."`
	LightChange  source.Text  `toml:"light-change" jsonschema:"example=10 min" jsonschema_description:"Real time that a change of the light takes."`
	BetweenTakes source.Text  `toml:"between-takes" jsonschema:"example=40 s" jsonschema_description:"Real time from the end of a take to the next, slate, count-in and the way back of the rig in it; less than these take does not count."`
	Slate        source.Text  `toml:"slate" jsonschema:"example=10 s" jsonschema_description:"Real time that a slate takes before each take."`
	CountIn      source.Text  `toml:"count-in" jsonschema:"example=3 s" jsonschema_description:"Real time that is counted before the rig moves; longer where cues need it."`
}

// RawShot is one [[shot]] table.
type RawShot struct {
	Place  source.Place `toml:"-"`
	File   source.Text  `toml:"file" jsonschema:"required,example=lantern.toml" jsonschema_description:"The shot's file, in the folder of this one or below it."`
	From   source.Text  `toml:"from" jsonschema:"example=12 frames" jsonschema_description:"Where in the shot's loop it begins, on screen; left out, at its first frame."`
	Length source.Text  `toml:"length" jsonschema:"example=48 frames,example=2 s,example=8 beats" jsonschema_description:"How long it is seen, on screen; longer than its loop shows the loop again."`
	Until  source.Text  `toml:"until" jsonschema:"example=beat 9,example=marker splash,example=4 s" jsonschema_description:"Where in the clip it ends and the next begins: by the music, or a time on screen from the clip's first frame; instead of length."`
	Rounds source.Text  `toml:"rounds" jsonschema:"example=2" jsonschema_description:"How many whole rounds of its loop are seen; instead of length."`
	Takes  source.Text  `toml:"takes" jsonschema:"example=5" jsonschema_description:"Takes wanted of it."`
	Rig    source.Text  `toml:"rig" jsonschema:"example=rail along the table" jsonschema_description:"How the rig stands for it, in your words; left out, by the name of its rig."`
	Light  source.Text  `toml:"light" jsonschema:"example=key left, no fill" jsonschema_description:"How the light stands for it, in your words; left out, by the lamps of its scene."`
	RawUse
	RawRecording
}

// RawRecording is what a [[shot]] table says of how it is recorded, where that is not as
// [card] has it.
type RawRecording struct {
	Records   source.Text `toml:"records" jsonschema:"enum=film,enum=stills" jsonschema_description:"Whether the camera films it or takes stills; left out, stills below 10 frames a second."`
	Bitrate   source.Text `toml:"bitrate" jsonschema:"example=900 Mbit/s" jsonschema_description:"What the camera writes in a real second of it, where that is not as [card] has it: many write more at high rates."`
	FrameSize source.Text `toml:"frame-size" jsonschema:"example=25 MB" jsonschema_description:"What it writes for a frame or still of it, where that is not as [card] has it."`
}

// RawUse is what a [[shot]] table says of the take that is seen.
type RawUse struct {
	Take     source.Text `toml:"take" jsonschema:"example=2" jsonschema_description:"Which of its kept takes is seen; left out, the last that is kept."`
	Reel     source.Text `toml:"reel" jsonschema:"example=A012C003" jsonschema_description:"What the recording of that take is called in an edit list: 8 letters, digits and _ at most; left out, made of the file's name and the take."`
	Dissolve source.Text `toml:"dissolve" jsonschema:"example=12 frames" jsonschema_description:"On screen, how long it dissolves into the shot after it, or the last one into the first again; 0 frames for a cut. Left out, a cut, and a dissolve only where a loop meets its own beginning with a jump that is seen."`
}

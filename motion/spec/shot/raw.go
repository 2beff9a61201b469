package shot

import (
	"seamrail/motion/base/source"
	"seamrail/motion/move"
	"seamrail/motion/music"
	"seamrail/motion/spec/rig"
)

// Raw is a shot as it is written, before anything is understood.
type Raw struct {
	Place   source.Place        `toml:"-"`
	Shot    source.Text         `toml:"shot" jsonschema:"example=Fernhollow lantern" jsonschema_description:"What the shot is called."`
	Setup   source.Texts        `toml:"setup" jsonschema_description:"Set-up files, as seen from this one, that say what this one leaves out; of several, a later one lies over an earlier one."`
	Clock   RawClock            `toml:"clock" jsonschema:"required" jsonschema_description:"Frame rates and the length of the loop."`
	Take    RawTake             `toml:"take" jsonschema_description:"How the loop is filmed."`
	ByFrame *RawByFrame         `toml:"frame-by-frame" jsonschema_description:"That the rig goes from frame to frame and rests while each is exposed: time-lapse, animation."`
	Rig     *RawRig             `toml:"rig" jsonschema_description:"The machine: the name of its file, or the rig itself."`
	Music   *music.Raw          `toml:"music" jsonschema_description:"Music or a list of markers that times are named by: beats, bars, markers."`
	Axis    map[string]move.Raw `toml:"axis" jsonschema:"required" jsonschema_description:"What each axis of the rig does during the loop."`
	Spin    map[string]RawSpin  `toml:"spin" jsonschema_description:"Display stands that turn by themselves during the loop, each under the name the rig file has for it."`

	Camera   *RawCamera   `toml:"camera" jsonschema_description:"The camera and its lens, for what the move does to the picture."`
	Scene    *RawScene    `toml:"scene" jsonschema_description:"What stands before the camera and around it."`
	SyncMark *RawSyncMark `toml:"sync-mark" jsonschema_description:"How the rig tells the camera when it is: a mark before the run-up and after the run-out, outside the loop."`
	Cue      []RawCue     `toml:"cue" jsonschema_description:"What hands do during the loop, and when it is to be seen."`
	Picture  *RawPicture  `toml:"picture" jsonschema_description:"What counts as a good picture, where it is not what is usual."`
}

// RawClock is the [clock] table.
type RawClock struct {
	Place source.Place `toml:"-"`
	RawRates
	Loop     source.Text  `toml:"loop" jsonschema:"required,example=6 s,example=144 frames,example=16 beats" jsonschema_description:"Length of the loop on screen; in beats or bars of the music it goes to the nearest whole frame."`
	Offers   source.Texts `toml:"offers" jsonschema_description:"Other capture rates the camera offers, to look among where a stand does not close."`
	Between  source.Texts `toml:"between" jsonschema_description:"Shortest and longest loop that would do as well, on screen, to look among where a stand does not close."`
	Pace     source.Text  `toml:"pace" jsonschema:"enum=as-timed,enum=quickest" jsonschema_description:"Whether the moves keep to the times of the loop, or go along the same way together as fast as the rig can, in a loop as short as that makes it."`
	Rounding source.Text  `toml:"rounding" jsonschema:"enum=nearest,enum=forbid" jsonschema_description:"Whether a loop in seconds may go to the nearest whole frame."`
}

// RawRates are the frame rates of the [clock] table.
type RawRates struct {
	Capture  source.Text `toml:"capture" jsonschema:"example=119.88" jsonschema_description:"Frames a second the camera takes; left out, as many as playback."`
	Playback source.Text `toml:"playback" jsonschema:"example=23.976" jsonschema_description:"Frames a second of the timeline."`
	Retime   source.Text `toml:"retime" jsonschema:"example=1/5" jsonschema_description:"Speed of the picture over real speed; left out, every captured frame is shown once."`
}

// RawTake is the [take] table.
type RawTake struct {
	Place source.Place `toml:"-"`
	RawLength
	Timecode  source.Text   `toml:"timecode" jsonschema:"example=01:00:00:00" jsonschema_description:"Label of the loop's first frame."`
	DropFrame source.Switch `toml:"drop-frame" jsonschema_description:"Drop-frame labels, at 29.97 or 59.94."`
}

// RawLength is how long a take is, of the [take] table.
type RawLength struct {
	Rounds  source.Text `toml:"rounds" jsonschema:"example=3" jsonschema_description:"Times round the loop in one take."`
	Handles source.Text `toml:"handles" jsonschema:"example=12 frames" jsonschema_description:"What is kept on either side of the cut."`
}

// RawRig is the [rig] table: a file, or everything a rig file holds.
type RawRig struct {
	File source.Text `toml:"file" jsonschema:"example=bench-rail.toml" jsonschema_description:"The rig's file, as seen from this one."`
	rig.Raw
}

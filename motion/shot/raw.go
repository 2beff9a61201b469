package shot

import (
	"seamrail/motion/rig"
	"seamrail/motion/source"
)

// Raw is a shot as it is written, before anything is understood.
type Raw struct {
	Place source.Place       `toml:"-"`
	Shot  source.Text        `toml:"shot" jsonschema:"example=Fernhollow lantern" jsonschema_description:"What the shot is called."`
	Clock RawClock           `toml:"clock" jsonschema:"required" jsonschema_description:"Frame rates and the length of the loop."`
	Take  RawTake            `toml:"take" jsonschema_description:"How the loop is filmed."`
	Rig   *RawRig            `toml:"rig" jsonschema:"required" jsonschema_description:"The machine: the name of its file, or the rig itself."`
	Axis  map[string]RawAxis `toml:"axis" jsonschema:"required" jsonschema_description:"What each axis of the rig does during the loop."`
	Spin  map[string]RawSpin `toml:"spin" jsonschema_description:"Display stands that turn by themselves during the loop, each under the name the rig file has for it."`

	Camera  *RawCamera  `toml:"camera" jsonschema_description:"The camera and its lens, for what the move does to the picture."`
	Scene   *RawScene   `toml:"scene" jsonschema_description:"What stands before the camera and around it."`
	Cue     []RawCue    `toml:"cue" jsonschema_description:"What hands do during the loop, and when it is to be seen."`
	Picture *RawPicture `toml:"picture" jsonschema_description:"What counts as a good picture, where it is not what is usual."`
}

// RawClock is the [clock] table.
type RawClock struct {
	Place    source.Place `toml:"-"`
	Capture  source.Text  `toml:"capture" jsonschema:"example=119.88" jsonschema_description:"Frames a second the camera takes; left out, as many as playback."`
	Playback source.Text  `toml:"playback" jsonschema:"required,example=23.976" jsonschema_description:"Frames a second of the timeline."`
	Retime   source.Text  `toml:"retime" jsonschema:"example=1/5" jsonschema_description:"Speed of the picture over real speed; left out, every captured frame is shown once."`
	Loop     source.Text  `toml:"loop" jsonschema:"required,example=6 s,example=144 frames" jsonschema_description:"Length of the loop on screen."`
	Offers   source.Texts `toml:"offers" jsonschema_description:"Other capture rates the camera offers, to look among where a stand does not close."`
	Between  source.Texts `toml:"between" jsonschema_description:"Shortest and longest loop that would do as well, on screen, to look among where a stand does not close."`
	Pace     source.Text  `toml:"pace" jsonschema:"enum=as-timed,enum=quickest" jsonschema_description:"Whether the moves keep to the times of the loop, or go along the same way together as fast as the rig can, in a loop as short as that makes it."`
	Rounding source.Text  `toml:"rounding" jsonschema:"enum=nearest,enum=forbid" jsonschema_description:"Whether a loop in seconds may go to the nearest whole frame."`
}

// RawTake is the [take] table.
type RawTake struct {
	Place     source.Place  `toml:"-"`
	Rounds    source.Text   `toml:"rounds" jsonschema:"example=3" jsonschema_description:"Times round the loop in one take."`
	Handles   source.Text   `toml:"handles" jsonschema:"example=12 frames" jsonschema_description:"What is kept on either side of the cut."`
	Timecode  source.Text   `toml:"timecode" jsonschema:"example=01:00:00:00" jsonschema_description:"Label of the loop's first frame."`
	DropFrame source.Switch `toml:"drop-frame" jsonschema_description:"Drop-frame labels, at 29.97 or 59.94."`
}

// RawRig is the [rig] table: a file, or everything a rig file holds.
type RawRig struct {
	File source.Text `toml:"file" jsonschema:"example=bench-rail.toml" jsonschema_description:"The rig's file, as seen from this one."`
	rig.Raw
}

// RawAxis is an [axis.NAME] table of a shot. Which keys it has depends on its
// move.
type RawAxis struct {
	Place source.Place `toml:"-"`
	Move  source.Text  `toml:"move" jsonschema:"enum=there-and-back,enum=through,enum=turn,enum=keys,enum=hold,enum=aim,enum=arc" jsonschema_description:"What it does."`

	From         source.Text `toml:"from" jsonschema:"example=40 mm" jsonschema_description:"there-and-back: the near end, where it sets out. through: where the first frame finds it. arc: a heading of the point, in degrees."`
	To           source.Text `toml:"to" jsonschema:"example=100 mm" jsonschema_description:"there-and-back: the far end. through: where the frame after the last would be. arc: the other heading."`
	Law          source.Text `toml:"law" jsonschema:"example=3-4-5,example=cycloidal" jsonschema_description:"there-and-back, arc, through, turn: the motion law."`
	BackLaw      source.Text `toml:"back-law" jsonschema:"example=modified-sine" jsonschema_description:"there-and-back: the law of the way back, if it is another."`
	Ramp         source.Text `toml:"ramp" jsonschema:"example=1/3" jsonschema_description:"trapezoidal, seven-segment and carried laws: share of the move spent speeding up, and again slowing down; above 0, at most 1/2."`
	JerkShare    source.Text `toml:"jerk-share" jsonschema:"example=1/4" jsonschema_description:"seven-segment law: share of the ramp in which acceleration builds up, and again dies down; above 0, at most 1/2. carried law: in which it dies down; at most 1."`
	Least        source.Text `toml:"least" jsonschema:"enum=acceleration,enum=jerk,enum=snap" jsonschema_description:"softest, quiet and quiet-wide laws: whose greatest value is as small as can be."`
	Swings       source.Text `toml:"swings" jsonschema:"example=6.4" jsonschema_description:"quiet and quiet-wide laws: how often the rig would swing in the time of the move, which is its frequency times the real seconds of the way out."`
	SwingDamping source.Text `toml:"swing-damping" jsonschema:"example=2 %" jsonschema_description:"quiet law: the damping of that swing, as a share of critical."`
	Cycles       source.Text `toml:"cycles" jsonschema:"example=1" jsonschema_description:"there-and-back: times there and back in a loop."`
	OutShare     source.Text `toml:"out-share" jsonschema:"example=1/2" jsonschema_description:"there-and-back: share of the moving time spent on the way out."`
	DwellFar     source.Text `toml:"dwell-far" jsonschema:"example=12 frames" jsonschema_description:"there-and-back: rest at the far end."`
	DwellNear    source.Text `toml:"dwell-near" jsonschema:"example=0.5 s" jsonschema_description:"there-and-back: rest at the near end."`
	Phase        source.Text `toml:"phase" jsonschema:"example=0,example=1/4" jsonschema_description:"there-and-back: share of the loop that is past at the first frame."`

	Even source.Text `toml:"even" jsonschema:"example=1/2" jsonschema_description:"through: share of the way gone at an even speed, the law on top of it; above 1 it is slower in the middle."`

	Follow source.Text  `toml:"follow" jsonschema:"example=rail" jsonschema_description:"aim: the axis that carries the lens."`
	As     source.Text  `toml:"as" jsonschema:"enum=pan,enum=tilt,enum=focus" jsonschema_description:"aim: what it does, pan to the left and tilt up being positive."`
	Point  source.Texts `toml:"point" jsonschema_description:"aim, arc: what stays centred or sharp: the place of the axis at which it is straight ahead, how far away it then is, and how far above the lens."`
	Focal  source.Text  `toml:"focal" jsonschema:"example=60 mm" jsonschema_description:"aim, focus: the focal length."`
	Marks  []RawMark    `toml:"marks" jsonschema:"minItems=2,maxItems=2" jsonschema_description:"aim, focus: two places of the axis, each found sharp at a distance from the lens."`

	Shaped source.Text `toml:"shaped" jsonschema:"enum=zv,enum=zvd" jsonschema_description:"there-and-back, turn, keys: spread over half a swing of the rig (zv), or a whole one (zvd, which forgives a frequency that is a little off), so that it leaves no after-shake; left out, it goes as its law says."`

	Turns source.Text `toml:"turns" jsonschema:"example=1/6,example=-1" jsonschema_description:"turn: how far round in a loop; below 0 backwards."`
	Start source.Text `toml:"start" jsonschema:"example=0 deg" jsonschema_description:"turn: where the first frame finds it."`

	Symmetry source.Text `toml:"symmetry" jsonschema:"example=6" jsonschema_description:"turn: faces of the product that look alike; left out, nothing is said of them."`

	At source.Text `toml:"at" jsonschema:"example=12 deg" jsonschema_description:"hold: where it stays."`

	Curve   source.Text `toml:"curve" jsonschema:"enum=smooth,enum=monotone" jsonschema_description:"keys: smooth has the least jerk, monotone never passes a key."`
	Advance source.Text `toml:"advance" jsonschema:"example=0 turn" jsonschema_description:"keys: what a rotary axis gains in a loop."`
	Keys    []RawKey    `toml:"keys" jsonschema:"minItems=1" jsonschema_description:"keys: where to be, and when."`
}

// RawKey is one key of a keys list.
type RawKey struct {
	Place source.Place `toml:"-"`
	At    source.Text  `toml:"at" jsonschema:"required,example=0 frames,example=1.5 s" jsonschema_description:"When, on screen, from the first frame."`
	Pos   source.Text  `toml:"pos" jsonschema:"required,example=10 deg" jsonschema_description:"Where."`
	Speed source.Text  `toml:"speed" jsonschema:"example=4 deg/s" jsonschema_description:"Speed through the key, over on-screen seconds; left out, whatever is smoothest."`
	Hold  source.Text  `toml:"hold" jsonschema:"example=6 frames" jsonschema_description:"How long to stay there."`

	Tension source.Text `toml:"tension" jsonschema:"example=1/2" jsonschema_description:"Share of the speed through the key that is taken off: at 1 it stops there."`
	EaseIn  source.Text `toml:"ease-in" jsonschema:"example=1/3" jsonschema_description:"Share of the time since the key before in which it slows down to rest at this one."`
	EaseOut source.Text `toml:"ease-out" jsonschema:"example=1/3" jsonschema_description:"Share of the time to the next key in which it picks up speed from rest at this one."`
	Within  source.Text `toml:"within" jsonschema:"example=2 mm" jsonschema_description:"How far from pos it may pass, where that is smoother."`
}

// RawMark is one mark of a focus axis.
type RawMark struct {
	Place    source.Place `toml:"-"`
	Distance source.Text  `toml:"distance" jsonschema:"required,example=400 mm" jsonschema_description:"From the lens to what was sharp."`
	Pos      source.Text  `toml:"pos" jsonschema:"required,example=12 deg" jsonschema_description:"Where the axis stood."`
}

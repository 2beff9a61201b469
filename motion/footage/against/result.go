package against

import "seamrail/motion/vibration/ringdown"

// Number is a value with its standard uncertainty (JCGM 100), one sigma; +Inf where nothing tells
// it.
type Number struct{ Value, Sure float64 }

// Result is what a take shows against its plan.
type Result struct {
	Frame0   Frame0
	Compared Compared
	Rate     Number // the share by which the take goes slower than its plan: 1e-6 is 1 ppm
	Rounds   []Round
	Axes     []Moved
	Shake    *Shake // nil where none is found
	Blows    []Shock
	Drift    Creep
	Plain    Residual // against the plan as it is, only laid and scaled
	Left     Residual // once all that was found is allowed for
	Noise    float64  // px: what differs from frame to frame by chance, all ways together
	// Timeline tells that the frames of the recording are not those that were captured but those of the
	// timeline on which the shot is delivered; all that is told in frames is so in these.
	Timeline bool
	Gaps     []Gap // that were filled before it was laid; nil where it was laid as it was recorded
	Alone    int   // frames that say something else than both their sides, and were left out
	Verdict  Verdict
}

// Frame0 is where frame 0 of the plan is in the recording.
type Frame0 struct {
	Number          // frames of the recording, a fraction; below 0 where it was not recorded
	Known  bool     // false where nothing tells it to half a frame, or something else would do as well
	Others []Number // other places that would do as well
}

// Compared is the part of the plan that a take shows.
type Compared struct {
	From, To float64 // planned frames
	Unknown  int     // frames recorded of which nobody knows how they lie
	// Share is how much of what moves in a round was seen in any round, 0 to 1.
	Share float64
}

// Round is how late a round was.
type Round struct {
	Index int
	// Late is by how many frames its end came late, beside frame 0; Longer is by how many it took
	// longer than planned. Below 0 it was early, or shorter.
	Late, Longer Number
	MS           Number // Late in milliseconds
	Known        bool   // false where too little of it moves
}

// Moved is how an axis showed.
type Moved struct {
	Name string
	// Gain is what a mm or degree of it does; Doubt are the standard uncertainties of its parts.
	Gain, Doubt Gain
	PxPerUnit   Number // px a mm or degree, all ways together
	Backlash    Number // mm or degrees by which it lags after it has turned
	BacklashPx  Number
	Lost        []Lost
	Told        bool // false where it goes so like another that nobody could tell them apart, or stands
}

// Lost are steps that were lost, where an axis turned or in the middle of a move.
type Lost struct {
	Frame float64 // of the recording, a fraction
	Units Number  // mm or degrees by which it is off from there on
	Px    Number
}

// Shake is what swings after moves.
type Shake struct {
	ringdown.Measured
	Amplitude Number // px, at the beginning of the rest in which it is most
	Units     Number // the same in mm or degrees of the axis along which it is; 0 where no scale is known
	Axis      int    // along which it is most nearly; -1 where along none
	Rests     int    // that were looked at
	// Limit is half the capture rate, Hz: what swings faster looks slower. Faster are what it may
	// be instead.
	Limit  float64
	Faster []float64
}

// Shock is a blow to the table.
type Shock struct {
	Frame float64 // of the recording, with which it begins
	Px    float64 // the most that it moved the picture by
	Still float64 // s until it was still
	Moved Number  // px: what stays behind of it
}

// Creep is a slow drift of the view, px a minute: to the right, down, turned and grown, the last
// two as they move a point as far from the middle as points are on average.
type Creep struct{ X, Y, Turned, Grown Number }

// Residual is what is left over, px.
type Residual struct {
	RMS   float64
	Worst float64
	Frame int // of the recording, at which it is worst
}

// Kind is what a verdict is.
type Kind int

// The three verdicts.
const (
	NotKnown Kind = iota // what was filmed does not tell well enough
	IsPlan
	Differs
)

// Verdict is what a take is, beside its plan.
type Verdict struct {
	Kind Kind
	Text string
	// Mended tells that the take is the plan but for frames that the recording lacks or has twice: what
	// differs is the recording and not what the rig did.
	Mended bool
	Bound  float64 // px: up to this the take counts as its plan
	Sure   float64 // px: the standard uncertainty of what lasts a quarter of a second
	Apart  float64 // px: the most that take and plan differ by for that long
	From   float64 // the frame of the recording from which they differ; below 0 where they do not
	// Causes are what most likely made the difference, the most likely first. They are a model.
	Causes []Reason
	// Why is what keeps it from being known; Unproven what no take like it could prove.
	Why, Unproven []string
}

// Reason is a cause with what speaks for it.
type Reason struct {
	Cause  Cause
	Text   string
	Frame  float64 // of the recording, from which it shows
	Lowers float64 // by how much it lowers Schwarz's criterion; 0 where it was not told by that
	Px     float64 // the most that it moves the picture by, beyond what else explains that
}

package pace

// Number is a value with its standard uncertainty (JCGM 100), one sigma; +Inf where nothing tells
// it.
type Number struct{ Value, Sure float64 }

// Result is what a take shows against the times of its plan.
type Result struct {
	Frame0 Frame0
	Rate   Number // the share by which the take goes slower than its plan: 1e-6 is 1 ppm
	Edges  []Edge
	Back   Back
	Rounds []Round // all but the first, which the others are compared with
	Laws   []Suited
	// Noise is the root mean square of the change from frame to frame in which nothing moves, 0 to
	// 1; Odd is the share of the frames that change otherwise than expected.
	Noise, Odd float64
	// Spins tells that something turns all along that the plan does not have.
	Spins   bool
	Verdict Verdict
}

// Frame0 is where frame 0 of the plan is in the recording.
type Frame0 struct {
	Number          // frames of the recording, a fraction; below 0 where it was not recorded
	Known  bool     // false where nothing tells it to half a frame, or something else would do as well
	Others []Number // other places that would do as well
	Rests  string   // what it rests on
}

// Edge is where rest ends or begins.
type Edge struct {
	Planned float64 // the planned frame
	Frame   float64 // of the recording, at which it was seen
	Sets    bool    // something sets out; else all comes to rest
	Late    Number  // frames
	Known   bool    // false where it is not in the recording, or something else was in the picture
}

// Back is how the ways back go beside the ways there, where all axes go back the way they came.
type Back struct {
	Apart Number // frames by which one part of them is later than another
	Parts int
	Known bool
}

// Round is how late a round was beside round 0, by which frames are alike.
type Round struct {
	Index int
	Late  Number  // frames, over all of the round; below 0 it was early
	MS    Number  // the same in milliseconds
	Ends  Number  // frames, in the last part of it that tells
	Most  Number  // frames, in the part in which it is most
	From  float64 // the frame of the recording from which on it is late; below 0 where it is not
	// Unlike is by how much the two rounds' pictures differ beyond noise once they are laid on each
	// other, as a share of what any two frames differ by.
	Unlike float64
	Known  bool // false where its frames are not like those of round 0
}

// Kind is what a verdict is.
type Kind int

// The three verdicts.
const (
	NotKnown Kind = iota // what was filmed does not tell well enough
	ByTimes              // moves and rests come when the plan has them
	Differs
)

// Verdict is what the take is, beside the times of its plan. It never says that a take is its plan:
// how far axes went cannot be seen.
type Verdict struct {
	Kind  Kind
	Text  string
	Apart float64 // frames: the most by which times of moves and rests are apart
	From  float64 // the frame of the recording from which they are; below 0 where they are not
	// Proven is what was seen to be as planned, Unproven what no take like it could show, and Why
	// what keeps it from being known, or what differs.
	Proven, Unproven, Why []string
}

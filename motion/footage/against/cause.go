package against

// Cause is what may have made a take other than its plan.
type Cause int

// The causes that are told apart.
const (
	NoCause     Cause = iota
	LateClock         // the whole take goes slower or faster: two clocks that differ
	SlowRound         // one round took longer or shorter than the others
	OtherPause        // a pause was longer or shorter
	LostSteps         // an axis is off by the same from a turn, or the middle of a move, on
	Backlash          // an axis lags by its play after each turn
	AfterShake        // a swing after moves
	Hum               // a swing that goes on all along
	Blow              // a knock outside of what was planned
	Drift             // the view creeps
	OtherTravel       // an axis shows more or less than it should
	WrongWay          // an axis goes the other way
	NothingMoves
	OtherMotion // none of these: another shot
	OtherLaw    // each move gathers speed and slows down otherwise
	Gaps        // frames of the recording are missing or there twice: nothing that a rig did
)

// String is the cause in words.
func (c Cause) String() string {
	return [...]string{"no cause", "a clock that runs late", "a slow round", "another pause", "lost steps", "backlash",
		"after-shake", "a hum", "a blow", "drift of the view", "another travel", "the wrong way", "nothing moves", "another motion", "another law", "frames missing or there twice"}[c]
}

// label is what an explanation is about.
type label struct {
	cause Cause
	axis  int
	round int
	turn  turn
	frame float64 // planned, at which it begins
	until float64
	swing *swing
	hertz float64 // of a hum
	along effect  // the direction in which it swings
}

// found is an explanation that was taken up.
type found struct {
	label
	lowers float64 // the criterion, by so much
	shows  float64 // px: the most it changes a frame by, beyond what else explains that
}

// allAlong tells whether a cause is at work in all of a take, so that no frame begins it.
func (c Cause) allAlong() bool {
	return c == LateClock || c == Drift || c == Hum || c == OtherLaw
}

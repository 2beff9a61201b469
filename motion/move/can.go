package move

import (
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
	"seamrail/motion/law"
	"seamrail/motion/track"
)

// Stayer is a move that does not move.
type Stayer interface{ Stays() }

// Follower is a move that another axis makes: it has no track of its own.
type Follower interface {
	// Carriage is the axis that it follows.
	Carriage() string
	// Part is what it is for the lens: the name of one of the roles of an axis.
	Part() string
	// Aimed returns the track that follows from that of the carriage.
	Aimed(carriage *track.Track) (*track.Track, error)
}

// Passer is a move that does not close: it jumps at the seam, so that the loop is cut
// and the rig comes back unseen.
type Passer interface {
	// Cut is how much further it is at the end than at the beginning, in units: what
	// the cut takes back at once.
	Cut() float64
}

// UnderLaw is a move that goes by motion laws.
type UnderLaw interface {
	// Laws are those of the way out or across, and of the way back, which is the same
	// where there is none.
	Laws() (out, back law.Law)
}

// LawStated is a move of which the file may say by which law it goes.
type LawStated interface {
	// StatesLaw tells whether the file says so, or the usual one stands in.
	StatesLaw() bool
}

// Relawed is a move that goes as well by another law of the catalogue, in the same
// time over the same way.
type Relawed interface {
	UnderLaw
	WithLaws(out, back law.Law) Move
	// LawKeys are the keys that have to change for another law both ways.
	LawKeys() []string
	// Tuned tells whether the file says more of the law than its name, which others
	// do not take.
	Tuned() bool
}

// Ended is a move that goes to and fro between two ends.
type Ended interface {
	Ends() (near, far unit.Quantity)
	// Visits is how often in a loop it goes to each, at least once.
	Visits() int
	// Stays are the times at one end, exactly, and false where only its track knows.
	Stays(loop exact.Rat, near bool) ([]Stay, bool)
}

// Stay is a rest where an axis turns round, or the instant at which it does, in real
// seconds.
type Stay struct{ From, To exact.Rat }

// Shuttle is a move of ways from rest to rest between two ends, for which laws,
// shares and dwells can be chosen.
type Shuttle interface {
	Ended
	Relawed
	Going() Ways
	WithWays(w Ways) Move
}

// Legged is a move that has a way from rest to rest, or a turn, of its own.
type Legged interface {
	// Leg is the quicker one: its travel in units, above 0, and its real seconds.
	Leg(period exact.Rat) (travel float64, seconds exact.Rat)
}

// Turner is a move that goes round, by so many turns each loop.
type Turner interface {
	Turned() exact.Rat // below 0 backwards
	Faces() int64      // of what it carries that look alike; 0 = not stated
	Step() float64     // degrees from one turn that ends on a face to the next
	Steady() bool      // at a constant rate
}

// Shapeable is a move that can be spread over a swing of the rig, so that it leaves no
// after-shake.
type Shapeable interface {
	// Shakeless returns why there is nothing to cancel and what would have, or "".
	Shakeless() (why, fit string)
	// Quickened is the track that is over so much sooner, to be spread over that time
	// again. Centred tells that it is not, and that each part comes at its time on
	// average instead.
	Quickened(period, lasts exact.Rat) (t *track.Track, centred bool, err error)
}

// Ranging is a move between two places that can be put elsewhere one by one.
type Ranging interface {
	// Range are the two places, first and last.
	Range() [2]End
}

// End is one of the two places of a move.
type End struct {
	Name string // as people say it, such as "to"
	Keys []string
	Pos  float64 // units
	// To returns what puts it elsewhere, the other staying where it is.
	To func(pos float64) []Edit
}

// Shrinker is a move that can go less far, or at a lesser rate.
type Shrinker interface {
	// Shrunk returns what to try, best first, so that speed, acceleration and jerk
	// are this share of what they were and it stays between low and high, which may
	// be infinite; speeds are told on the screen of a clock.
	Shrunk(share, low, high float64, c clock.Clock) []Change
}

// Shifter is a move whose places are its own.
type Shifter interface {
	// Shifted is the same move so many units further on.
	Shifted(by float64) Change
}

// Keyed is a move along keys, which can be added and taken out.
type Keyed interface {
	Listed() []Key
}

// Timed is a move with times that are stated on screen.
type Timed interface {
	// Retimed is the move with all of them so many times as long.
	Retimed(times exact.Rat) Move
}

// Scheduled is a move with so many times of its own that a longer loop alone does not
// make it slower.
type Scheduled interface {
	// Slowed is the move with all of them so many times as late, as the file would
	// say it.
	Slowed(times exact.Rat, c clock.Clock) Change
}

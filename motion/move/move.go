package move

import (
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/track"
)

// Move is what one axis does during the loop. Positions are in mm or degrees, as
// their dimension says; times are real seconds. A Move is a value: what changes one
// returns another.
type Move interface {
	// Kind is the name that the shot file has for it.
	Kind() string
	// Track returns how the axis moves over a loop of period real seconds. It fails
	// where no track can: dwells as long as the loop, keys beyond its end, and where
	// the move is a Follower, which has none of its own.
	Track(period exact.Rat) (*track.Track, error)
	// Words says in plain words what it does, dwells in time on screen.
	Words(c clock.Clock) string
	// Suits returns what is wrong with it for an axis that is rotary or linear, or
	// nil. File, line and axis are for the caller to add.
	Suits(rotary bool) *fault.Fault
	// Spots are the places of it that can be found on the rig, and marked.
	Spots() []Spot
	// Grips are the points of its curve that can be dragged.
	Grips(s Stage) []Grip
}

// Kind is a move as it is written: the keys of its table.
type Kind interface {
	// Name is the name that the shot file has for the move.
	Name() string
	// Told tells whether the keys that are there are a sign of the move, where the
	// file does not name it.
	Told() bool
	// Read understands the keys. What is wrong goes to the report.
	Read(r *Reader) Move
	// Example is the table of an axis that has the move, as a file would say it, in
	// a loop of six seconds; of one that follows, the axis is called pan and what it
	// follows rail.
	Example() string
}

// Edit is a key of the axis and what is to be written there.
type Edit struct{ Key, Text string }

// Change is another move of the same kind, how the file comes to say it, and how
// that is told.
type Change struct {
	Move  Move
	Edits []Edit
	Words string
}

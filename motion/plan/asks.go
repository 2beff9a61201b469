package plan

import (
	"seamrail/motion/move"
	"seamrail/motion/spec/shot"
)

// What planning asks of a move, beside its track.

// aims tells whether it has no track of its own, but follows what carries the lens.
func aims(m shot.AxisMove) bool {
	_, follows := m.Does.(move.Follower)
	return follows
}

// passes tells whether the loop is cut back from where it ends to where it begins.
func passes(m shot.AxisMove) bool {
	_, does := m.Does.(move.Passer)
	return does
}

// visits returns how often it goes there and back in a loop, 0 where it does not.
func visits(m shot.AxisMove) int64 {
	if e, ok := m.Does.(move.Ended); ok {
		return int64(e.Visits())
	}
	return 0
}

// Follows tells whether the axis follows another, which carries the lens, and has no
// move of its own.
func (a *Axis) Follows() bool { return aims(a.Move) }

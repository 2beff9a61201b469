package cue

import "seamrail/motion/base/exact"

// SyncTone stands for the cue of the beats at which the sync mark of a take is made.
const SyncTone = -2

// Sync is the sync mark of a take, for who hears it or makes it.
type Sync struct {
	Name  string
	At    exact.Rat // real s from frame 0, before motion begins
	After exact.Rat // s from the end of all motion to the second mark; 0 = there is none
}

// restBefore is how long nothing is heard and seen before a mark, s: so much of dark
// before it makes it clear that it is one.
var restBefore = exact.Int(1)

// early is how many seconds before motion the take has to begin for its mark.
func (s Sheet) early() int64 {
	if s.Sync == nil {
		return 0
	}
	return s.Begins().Sub(s.Sync.At).Add(restBefore).Ceil().Whole()
}

// second is when the second mark of a take of so many rounds is, and whether there is one.
func (s Sheet) second(rounds int64) (exact.Rat, bool) {
	if s.Sync == nil || s.Sync.After.Sign() == 0 {
		return exact.Rat{}, false
	}
	return s.Ends(rounds).Add(s.Sync.After), true
}

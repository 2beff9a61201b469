package cue

import (
	"iter"

	"seamrail/motion/base/exact"
)

// Take is a sheet as one take plays it, from the first beat of its count-in on:
// what a click track or captions run beside.
type Take struct {
	Sheet
	Rounds  int64 // at least 1
	CountIn int64 // beats of a second before motion begins
}

// ForTake returns the take of so many rounds, with a count-in of so many beats
// or as many as its cues need. It panics on less than one round.
func (s Sheet) ForTake(rounds, countIn int64) Take {
	if rounds < 1 {
		panic("cue: a take of no rounds")
	}
	return Take{s, rounds, max(countIn, s.Needs(rounds), s.early())}
}

// Starts returns when the take's own time begins, in real s from frame 0: never
// above 0.
func (t Take) Starts() exact.Rat { return t.Begins().Sub(exact.Int(t.CountIn)) }

// Lasts returns the seconds from the first beat of the count-in to rest, or to the second
// sync mark.
func (t Take) Lasts() exact.Rat {
	end, ok := t.second(t.Rounds)
	if !ok {
		end = t.Ends(t.Rounds)
	}
	return end.Sub(t.Starts())
}

// Beats are all beats of the take in order of time, those of the count-in too.
// Their times are from the first beat of the count-in on.
func (t Take) Beats() iter.Seq[Beat] {
	return func(yield func(Beat) bool) {
		for b := range t.Sheet.Take(t.Rounds, t.CountIn) {
			b.At = b.At.Sub(t.Starts())
			if !yield(b) {
				return
			}
		}
		if at, ok := t.second(t.Rounds); ok {
			yield(Beat{At: at.Sub(t.Starts()), Cue: SyncTone, Round: t.Rounds})
		}
	}
}

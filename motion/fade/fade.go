// Package fade is how the level of a lamp goes over the loop, and what a dimmer is told
// of it.
//
// A level is the share of its light, in lumens, that a lamp gives: 0..1. Times are real
// seconds from captured frame 0.
package fade

import (
	"fmt"
	"slices"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/list"
	"seamrail/motion/base/plain"
	"seamrail/motion/law"
	"seamrail/motion/move"
	"seamrail/motion/track"
)

// Shuttle is a move to and fro, whose places are levels.
type Shuttle interface {
	move.Move
	move.Shuttle
}

// Fade is how a level goes over a loop: there and back, or along keys. It is immutable.
type Fade struct {
	There Shuttle     // between two levels; nil where it goes along Keys
	Keys  []track.Key // only time, level and hold count
	// Between is the law from one key to the next, from rest to rest; nil is the
	// smoothest curve that never passes a key.
	Between law.Law
	Cut     bool // it jumps at the seam, from the last key to the first

	Loop exact.Rat // real s of the loop that the times are of
	// Paced is set where the rig sets the pace: its times are then shares of the loop,
	// whatever that comes to last.
	Paced bool
}

// Over returns the level over a loop of so many real seconds. It fails where the times do
// not fit it.
func (f *Fade) Over(loop exact.Rat) (*Course, error) {
	of := loop
	if f.Paced {
		of = f.Loop
	}
	t, err := f.track(of)
	if err != nil {
		return nil, err
	}
	return &Course{track: t, quicker: of.Quo(loop).Float(), loop: loop}, nil
}

func (f *Fade) track(loop exact.Rat) (*track.Track, error) {
	switch {
	case f.There != nil:
		return f.There.Track(loop)
	case f.Between == nil:
		return track.Keys(loop, track.KeysSpec{Keys: f.Keys, Monotone: true})
	}
	return track.Stations(loop, track.StationsSpec{Keys: f.Keys, Law: f.Between, Cut: f.Cut})
}

// Jumps tells whether it is elsewhere after the seam than before it.
func (f *Fade) Jumps() bool { return f.Cut && f.Keys[0].Pos != f.Keys[len(f.Keys)-1].Pos }

// Range are the least level and the greatest.
func (f *Fade) Range() (low, high float64) {
	if f.There != nil {
		a, b := f.There.Ends()
		return min(a.Float(), b.Float()), max(a.Float(), b.Float())
	}
	levels := list.Map(f.Keys, func(k track.Key) float64 { return k.Pos })
	return slices.Min(levels), slices.Max(levels)
}

// Words tells how the level goes.
func (f *Fade) Words() string {
	if f.There != nil {
		w := f.There.Going()
		text := fmt.Sprintf("from %s to %s and back", Percent(w.From.Float()), Percent(w.To.Float()))
		if w.Cycles > 1 {
			text += fmt.Sprintf(" %d times", w.Cycles)
		}
		text += ", by the " + w.Out.Name() + " law"
		if w.Back.Name() != w.Out.Name() {
			text += ", back by the " + w.Back.Name() + " law"
		}
		return text
	}
	low, high := f.Range()
	text := fmt.Sprintf("between %s and %s, through %s", Percent(low), Percent(high), plain.Count(int64(len(f.Keys)), "key"))
	if f.Between != nil {
		text += ", from one to the next by the " + f.Between.Name() + " law"
	} else {
		text += " along a curve that never passes one"
	}
	if f.Cut {
		text += "; at the seam it jumps to the first"
	}
	return text
}

// String tells all of it: fades that read alike are alike.
func (f *Fade) String() string {
	if f.There != nil {
		w := f.There.Going()
		return fmt.Sprintf("%s; out %s, dwells %s and %s, phase %s, loop %s", f.Words(), w.OutShare, w.DwellFar, w.DwellNear, w.Phase, f.Loop)
	}
	keys := list.Map(f.Keys, func(k track.Key) string { return fmt.Sprintf("%s at %s for %s", Percent(k.Pos), k.Time, k.Hold) })
	return fmt.Sprintf("%s: %s, loop %s", f.Words(), strings.Join(keys, ", "), f.Loop)
}

// Percent prints a level: "85 %", "12.5 %".
func Percent(level float64) string {
	return exact.FromFloat(100*level).Decimal(1) + " %"
}

package shot

import (
	"slices"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
)

// Words of a cue's at that are no time: an axis says when.
const (
	Turnaround = "turnaround" // in the middle of the rest where an axis turns round
	FarEnd     = "far-end"    // when it arrives there
	NearEnd    = "near-end"
)

// Nothing is what a cue leaves that leaves nothing.
const Nothing = "nothing"

// eachRound is the word for a cue that comes back in every round.
const eachRound = "each"

// Cue is something a hand does so that it shows at an instant of the loop.
// Hands and gravity know nothing of slow motion: Fall, Flow, Lead, Measured,
// Reaction and Beat are as they are on the set, in mm and real seconds.
type Cue struct {
	Name   string
	Hand   string
	Line   int // of the cue in the file, 1-based
	Column int

	Event string    // Turnaround, FarEnd or NearEnd; "" for a time
	At    exact.Rat // real s from frame 0, where Event is ""
	Axis  string    // whose Event it is; "" for the only one that has one
	Which int64     // the how manieth of the loop, from 1
	After exact.Rat // real s from At or Event on; below 0 before it

	Fall     exact.Rat // mm from the hand to where it lands
	Flow     exact.Rat // mm/s with which it leaves downwards
	Lead     exact.Rat // s from the hand's move to it leaving
	Measured exact.Rat // s from the hand's move to it landing, in place of the three above; 0 = not measured
	Reaction exact.Rat // s from being told to the hand's move
	Beats    int64     // that are counted before it
	Beat     exact.Rat // s from one to the next
	Rounds   []int64   // in which it happens, ascending from 1; nil = in each
	Leaves   string    // what it leaves in the picture by the end of the loop; Nothing, or "" where that is not said

	Dims *Dimming // what a hand does at a dimmer; nil where it does something else

	Busy   exact.Rat // real s that the hand is at it from its move on; 0 where it lets go at once
	Ring   bool      // of a hand on the focus ring, which rides with the camera
	Faulty bool      // not understood: some fault says why

	path string // "cue[1].", or that of the lamp or the pull that its hand is at
	said map[string]source.Text
}

// Key is the path of a key where the file tells of the cue: "cue[1].hand".
func (c Cue) Key(key string) string { return c.path + key }

// In tells whether the cue happens in a round, from 1.
func (c Cue) In(round int64) bool {
	if c.Rounds == nil {
		return true
	}
	return slices.ContainsFunc(c.Rounds, func(r int64) bool { return r == round })
}

// Fault is something wrong with a key of the cue in a file that only the plan
// shows. Where the key was left out, the cue itself is the place.
func (c Cue) Fault(file, key, bound, fit string) fault.Fault {
	f := fault.Fault{File: file, Line: c.Line, Column: c.Column, Quantity: c.path + key, Bound: bound, Fit: fit}
	if t := c.said[key]; t.Set {
		f.Line, f.Column, f.Value = t.Line, t.Column, t.Quoted()
	}
	return f
}

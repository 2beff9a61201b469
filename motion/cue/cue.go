// Package cue works out when a hand has to move, so that what it drops, pours
// or strikes shows at an instant of the loop, and how it is counted to it.
//
// All times are exact real seconds from frame 0 of a round, or of a take where
// that is said. They are below 0 where a hand has to move before the loop, or
// the take, begins.
package cue

import (
	"slices"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/plan"
	"seamrail/motion/spec/shot"
)

// Cue is one thing that a hand does, in rounds of the take.
type Cue struct {
	shot.Cue
	Lands  exact.Rat // when it is to be seen, from frame 0 of the round
	Screen exact.Rat // the same as a timeline frame, whole or not
	What   string    // what is then: "turnaround of rail"; "" for a plain time
	Way    exact.Rat // s from the hand's move to that, at least 0
	Falls  exact.Rat // of these: s it falls; 0 where the whole way was measured
	Habit  Habit     // how late this hand usually is
}

// Moves returns when the hand has to move.
func (c Cue) Moves() exact.Rat { return c.Lands.Sub(c.Way) }

// Now returns when the hand is told to: earlier than it has to move by its
// reaction and by what it usually is late.
func (c Cue) Now() exact.Rat { return c.Moves().Sub(c.Reaction).Sub(c.Habit.Shift()) }

// First returns when the count to it begins.
func (c Cue) First() exact.Rat { return c.Now().Sub(c.Beat.Mul(exact.Int(c.Beats))) }

// Sheet is the cues of a shot.
type Sheet struct {
	Plan *plan.Plan
	Cues []Cue // in the order of the file
	Sync *Sync // the sync mark of the take; nil = none
}

// New works out the cues of a shot that has been planned. The error is a
// fault.List of cues that are outside the loop, of axes that do not do what a
// cue waits for, and of falls that take longer than a round.
func New(p *plan.Plan, s shot.Shot) (Sheet, error) {
	out := Sheet{Plan: p}
	var faults fault.List
	for _, raw := range slices.Concat(s.Cues, s.FadeCues(p.Loop)) {
		b := builder{plan: p, shot: s, cue: Cue{Cue: raw}}
		b.build()
		faults = append(faults, b.faults...)
		out.Cues = append(out.Cues, b.cue)
	}
	if len(faults) > 0 {
		return Sheet{}, faults
	}
	return out, nil
}

// Hands returns the names of the hands, in the order of the file.
func (s Sheet) Hands() []string {
	var out []string
	seen := map[string]bool{}
	for _, c := range s.Cues {
		if !seen[c.Hand] {
			seen[c.Hand] = true
			out = append(out, c.Hand)
		}
	}
	return out
}

// WithHabits returns the sheet with how late each hand usually is.
func (s Sheet) WithHabits(of map[string]Habit) Sheet {
	cues := make([]Cue, len(s.Cues))
	for i, c := range s.Cues {
		c.Habit = of[c.Hand]
		cues[i] = c
	}
	s.Cues = cues
	return s
}

// screen returns the timeline frame that shows real second t of the loop.
func screen(c clock.Clock, t exact.Rat) exact.Rat {
	return t.Quo(c.Retime).Mul(c.Playback)
}

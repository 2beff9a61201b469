// Package segment cuts the motion of a take into straight blocks for
// controllers that are told where to be next and how long to take over it.
package segment

import (
	"seamrail/motion/base/exact"
	"seamrail/motion/plan/trajectory"
)

// Block is one straight move of all axes together.
type Block struct {
	Seconds exact.Rat // real duration, exactly; > 0
	// Nominal is the seconds that the controller is told for the block: Seconds,
	// unless it is to make up for how the controller runs it.
	Nominal exact.Rat
	End     []float64 // mm or degrees of each axis when the block ends
	Rest    bool      // no axis moves
}

// Take is a whole take cut into blocks. Positions are those of the first
// round: in round n add n times the axis' advance, exactly, and in the run-out
// the advance of all rounds but the last.
type Take struct {
	Rest   []float64 // mm or degrees where each axis waits before the run-up
	RunUp  []Block   // empty when every axis rests at the seam
	Round  []Block   // durations add up to the loop's period exactly
	RunOut []Block   // empty when every axis rests at the seam
}

// Segmenter cuts a trajectory. EqualTime is one; package ontime has another,
// which suits the controller.
type Segmenter interface {
	Cut(t *trajectory.Trajectory) (Take, error)
}

// Cut is EqualTime{seconds}.Cut(t).
func Cut(t *trajectory.Trajectory, seconds exact.Rat) (Take, error) {
	return EqualTime{Seconds: seconds}.Cut(t)
}

// Duration returns the real seconds of the take with the given rounds.
func (k Take) Duration(rounds int64) exact.Rat {
	once := Total(k.RunUp).Add(Total(k.RunOut))
	return once.Add(exact.Int(rounds).Mul(Total(k.Round)))
}

// Total returns the real seconds of blocks.
func Total(blocks []Block) exact.Rat {
	var sum exact.Rat
	for _, b := range blocks {
		sum = sum.Add(b.Seconds)
	}
	return sum
}

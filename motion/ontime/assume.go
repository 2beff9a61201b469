package ontime

import (
	"fmt"

	"seamrail/motion/plain"
	"seamrail/motion/rig"
)

// Assumption is what was taken for granted of a controller about which the rig
// file does not say, and what another value would cost.
type Assumption struct {
	Key   string // of the rig file's [controller]
	Value string // that was taken
	Cost  string // in words
}

// usualIdle is the idle delay that boards of the kind come with, s (measured:
// testdata/reference).
const usualIdle = 0.025

// assumptions lists them.
func (s *search) assumptions() []Assumption {
	var out []Assumption
	c := s.m.c
	rests := s.restsOfTake()
	if c.Kind == rig.Buffered && !c.IdleStated && rests > 0 {
		out = append(out, Assumption{"idle-delay", "none, the motors stay on", fmt.Sprintf(
			"as it comes, with 25 ms, it would be %.0f ms late in %s, and the motors without current in each rest; $1=255 sets it so",
			float64(rests)*usualIdle*1000, plain.Counted(s.best.Rounds, "round"))})
	}
	if !c.Timer.Known {
		out = append(out, Assumption{"step-timer", "a fine one", fmt.Sprintf(
			"one of 16 bits at 16 MHz would make each round up to %.1f ms late, by its step rates; see what it has, or measure a pass",
			coarsest*s.best.RoundPlanned*1000)})
	}
	return out
}

// coarsest is the share by which the takes that were measured on a timer of 16
// bits were late at most (testdata/reference).
const coarsest = 0.0021

// restsOfTake counts the rests that end in motion.
func (s *search) restsOfTake() int64 {
	n := int64(restsIn(s.take.Round))
	if k := len(s.take.Round); n > 0 && s.take.Round[k-1].Rest {
		return n*s.best.Rounds - 1
	}
	return n * s.best.Rounds
}

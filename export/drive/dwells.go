package drive

import (
	"math"

	"seamrail/motion/controller/program"
)

// dwells tells whether a line lets time pass without motion.
func dwells(l program.Line) bool { return !l.Moves && dwell(l.Text) > 0 }

// ends returns by which sec of the take a line is answered that is on time: when
// its motion begins, at the latest, or at the end of its dwell, which lasts
// whole grains and begins when the motors have settled.
func (t *talker) ends(l *program.Line) float64 {
	switch {
	case l.Text == syncLine:
		return l.Start + t.controller.IdleDelay
	case !dwells(*l):
		return l.Start
	}
	told := dwell(l.Text)
	return l.End + t.lasts(told) - told + t.controller.IdleDelay
}

// lasts returns how many s a dwell lasts that is told to last so many.
func (j *job) lasts(told float64) float64 { return inGrains(told, j.controller.DwellGrain) }

// inGrains is the least number of whole grains that is no shorter; of no grain, as
// it is.
func inGrains(told, grain float64) float64 {
	if grain > 0 {
		return grain * math.Ceil(told/grain-grainHair)
	}
	return told
}

// grainHair is what a time may be above a whole number of grains, in grains, and
// count as that number: a word has six decimals and a board single precision.
const grainHair = 1e-5

package cue

import (
	"math"

	"gonum.org/v1/gonum/stat"

	"seamrail/motion/base/exact"
)

// Habit is how late a hand has been, in real seconds; below 0 it was early. The
// zero Habit is a hand that nothing is known of.
type Habit struct {
	Takes  int
	Mean   float64
	Spread float64 // sample standard deviation; 0 of fewer than two takes
}

// HabitOf sums takes up. What was late is counted from where the hand would
// have been without a shift: a cue that came earlier by s, and was seen late by
// l, counts as s + l.
func HabitOf(late []float64) Habit {
	h := Habit{Takes: len(late)}
	switch h.Takes {
	case 0:
	case 1:
		h.Mean = late[0]
	default:
		h.Mean, h.Spread = stat.MeanStdDev(late, nil)
	}
	return h
}

// punctual is how many takes on time a hand is credited with that nothing is
// known of. With two, one late take moves the cue by a third of it, and ten by
// five sixths: a hand that was late once may have been startled.
const punctual = 2

// grain is what a shift is rounded to, a tenth of a millisecond, so that it
// reads back from a log as it was.
const grain = 10_000

// Shift returns the seconds by which the hand is told earlier: the mean, drawn
// towards 0 while there are few takes. That is the posterior mean under a normal
// prior about 0 (A. Gelman and others, Bayesian Data Analysis, 3rd ed., CRC
// 2013, section 2.5, DOI 10.1201/b16018), where takes spread as much as hands
// differ by the square root of punctual.
func (h Habit) Shift() exact.Rat {
	n := float64(h.Takes)
	return exact.New(int64(math.Round(h.Mean*n/(n+punctual)*grain)), grain)
}

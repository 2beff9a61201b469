package stepwise

import (
	"math"

	"seamrail/motion/controller/rs274"
	"seamrail/motion/law"
	"seamrail/motion/spec/rig"
)

// GentleShare is the share of its greatest speed at which an axis moves where nothing
// asks for haste: a tabletop rail that can do 400 mm/s takes ten seconds over its
// length, time to see what it is about to meet.
const GentleShare = 0.1

// GentleSpeed is how fast an axis moves where nothing asks for haste, in units a second.
func GentleSpeed(a rig.Axis) float64 { return a.MaxSpeed * GentleShare }

// Acceleration is what an axis is moved with: its own limit, or what the controller is
// set to if that is less.
func Acceleration(a rig.Axis) float64 {
	if set := a.Settings.Acceleration; set > 0 {
		return min(a.MaxAcc, set)
	}
	return a.MaxAcc
}

// Gentle returns the quickest move of an axis over a distance at its gentle speed.
func Gentle(a rig.Axis, distance float64) law.Profile {
	return law.Fastest(distance, GentleSpeed(a), Acceleration(a), jerkOf(a))
}

// Together returns the quickest way from 0 to 1 of axes that each go so far by it, along a
// straight line: none is faster than at its gentle speed. Where none goes at all it takes no
// time.
func Together(axes []rig.Axis, by []float64) law.Profile {
	v, acc, jerk := shares(axes, by)
	if math.IsInf(v, 1) {
		return law.Profile{}
	}
	return law.Fastest(1, v, acc, jerk)
}

// shares are the greatest speed, acceleration and jerk from 0 to 1 that every axis bears.
func shares(axes []rig.Axis, by []float64) (v, acc, jerk float64) {
	v, acc, jerk = math.Inf(1), math.Inf(1), math.Inf(1)
	for i, a := range axes {
		if d := math.Abs(by[i]); d > 0 {
			v, acc, jerk = min(v, GentleSpeed(a)/d), min(acc, Acceleration(a)/d), min(jerk, jerkOf(a)/d)
		}
	}
	return v, acc, jerk
}

func jerkOf(a rig.Axis) float64 {
	if a.MaxJerk > 0 {
		return a.MaxJerk
	}
	return math.Inf(1)
}

// FeedWords are how a controller that reads lines is told the pace of one by which axes go so
// far together, none faster than at its gentle speed: the mode, in the style that it is told
// feeds in, and the F; false where that cannot be told well enough, so that they have to go
// one after the other.
func FeedWords(c rig.Controller, axes []rig.Axis, by []float64) (mode, word string, ok bool) {
	feed, mode := rs274.FeedOf(c, axes), "G93"
	if feed.Style == rig.PerMinute {
		mode = "G94"
	}
	v, _, _ := shares(axes, by)
	want := feed.Value(1/v, by)
	told := feed.Round(want)
	if told < leastFeed || math.Abs(told-want) > feedSlack*want {
		return "", "", false
	}
	return mode, string(feed.Append([]byte("F"), told)), true
}

const (
	// leastFeed is an F that every controller can read.
	leastFeed = 1
	// feedSlack is by what share a feed may be off where it is rounded: a move takes as much
	// longer or shorter, which is far below what is allowed for talk.
	feedSlack = 0.01
)

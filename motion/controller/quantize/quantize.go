// Package quantize follows what a controller is told block by block: how positions
// round to words and to steps, which blocks make a line, and which give their
// time to the next. Those who write the lines and those who foretell what
// becomes of them follow it alike.
package quantize

import (
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/controller/rs274"
	"seamrail/motion/spec/rig"
)

const (
	// shortestDwell is the last of the decimals that a dwell is told with: a
	// microsecond.
	shortestDwell = 1e-6
	// landSeconds is how long the last part of a step takes where motion ends.
	// A controller that drops moves below a step loses no more than this.
	landSeconds = 0.001
)

// Axis is where the controller has been told that an axis is to be.
type Axis struct {
	rs274.Place
	Told, Target int64 // counts of the last decimal
	told, target int64 // motor steps nearest to these
}

// Line is one line of motion. Its slices are used again for the next.
type Line struct {
	Moves   bool      // else it dwells
	Seconds float64   // told
	Feed    float64   // the F word, not rounded; 0 where it dwells
	Until   float64   // s of the path that are past when it ends
	Delta   []float64 // units by which each axis moves, where it does
	Steps   []int64   // and motor steps
}

// Quantizer turns blocks into lines.
type Quantizer struct {
	Axes []Axis
	Feed rs274.Feed
	Now  float64 // s of the path up to which blocks have been taken
	line Line
	// stepped is room for the units of whole steps.
	stepped []float64
	owed    float64 // s of the path that no line has taken
	told    float64 // s that the controller is to be told for them
	emit    func(*Line)
}

// New returns a teller of the given axes, which gain advance a round, for the
// controller. It calls emit with each line. Axes that are told to be nowhere
// yet are at 0: see Start.
func New(c rig.Controller, axes []rig.Axis, advance []exact.Rat, emit func(*Line)) *Quantizer {
	t := &Quantizer{Feed: rs274.FeedOf(c, axes), emit: emit}
	for i, a := range axes {
		t.Axes = append(t.Axes, Axis{Place: rs274.NewPlace(c.Decimals, a.StepsPerUnit.Float(), c.SinglePrecision, advance[i])})
	}
	t.stepped = make([]float64, len(axes))
	t.line.Delta, t.line.Steps = make([]float64, len(axes)), make([]int64, len(axes))
	return t
}

// Shift adds the advance of so many rounds to the positions that follow.
func (t *Quantizer) Shift(rounds int64) {
	for i := range t.Axes {
		t.Axes[i].Shift(rounds)
	}
}

// Start tells where the axes stand.
func (t *Quantizer) Start(rest []float64) {
	t.aim(rest)
	for i := range t.Axes {
		t.Axes[i].reach()
	}
}

func (t *Quantizer) aim(end []float64) {
	for i := range t.Axes {
		a := &t.Axes[i]
		a.Target = a.Counts(end[i])
		a.target = a.Steps(a.Target)
	}
}

func (a *Axis) reach() { a.Told, a.told = a.Target, a.target }

// Block takes a block of sec seconds to end, of which the controller is told
// nominal. One in which no motor would step makes no line, because controllers
// drop such lines and the time with them: its time goes to the next that
// moves, or to a dwell where the axes rest.
func (t *Quantizer) Block(sec, nominal float64, end []float64, rest bool) {
	if rest {
		t.Settle()
	}
	t.owed += sec
	t.told += nominal
	t.Now += sec
	t.aim(end)
	if rest {
		t.Settle()
	} else if t.steps() {
		t.move(t.told, t.Now)
		t.owed, t.told = 0, 0
	}
}

// Settle turns time that no motion has taken into a dwell, and lands the axes
// on the very place where they are to rest.
func (t *Quantizer) Settle() {
	if t.owed > 0 && t.astray() {
		land := min(t.owed, landSeconds)
		t.pause(t.told-land, t.Now-land)
		t.move(land, t.Now)
	} else {
		t.pause(t.told, t.Now)
	}
	t.owed, t.told = 0, 0
}

// steps tells whether any motor steps, and any word changes, on the way from
// where the controller has been told to be to where the axes are to be.
func (t *Quantizer) steps() bool {
	for i := range t.Axes {
		if a := &t.Axes[i]; a.Target != a.Told && a.target != a.told {
			return true
		}
	}
	return false
}

// astray tells whether any word changes on that way.
func (t *Quantizer) astray() bool {
	for i := range t.Axes {
		if t.Axes[i].Target != t.Axes[i].Told {
			return true
		}
	}
	return false
}

// pause dwells, unless the time is one that a word cannot hold.
func (t *Quantizer) pause(sec, until float64) {
	if sec >= shortestDwell {
		t.line.Moves, t.line.Feed, t.line.Seconds, t.line.Until = false, 0, sec, until
		t.emit(&t.line)
	}
}

func (t *Quantizer) move(sec, until float64) {
	l := &t.line
	for i := range t.Axes {
		a := &t.Axes[i]
		l.Delta[i], l.Steps[i] = a.Units(a.Target-a.Told), a.target-a.told
	}
	l.Moves, l.Feed, l.Seconds, l.Until = true, t.Feed.Value(sec, l.Delta), sec, until
	t.emit(l)
	for i := range t.Axes {
		t.Axes[i].reach()
	}
}

// Written returns the seconds in which the controller takes the line to be
// run, once its F word is rounded and the axes go by whole steps; +Inf where
// the word rounds to 0, which controllers refuse.
func (t *Quantizer) Written(l *Line) float64 {
	if !l.Moves {
		return l.Seconds
	}
	f := t.Feed.Round(l.Feed)
	if f == 0 {
		return math.Inf(1)
	}
	return t.Feed.Seconds(f, t.wholeSteps(l))
}

// Stretch is by how much longer a block must be told to take, because the
// controller goes by whole steps where the words say a little more or less.
// That matters to a feed per minute alone.
func (t *Quantizer) Stretch(l *Line) float64 {
	if !l.Moves || t.Feed.Style != rig.PerMinute {
		return 1
	}
	if length := t.Feed.Path.Length(t.wholeSteps(l)); length > 0 {
		return t.Feed.Path.Length(l.Delta) / length
	}
	return 1
}

// wholeSteps are the units of the line's steps.
func (t *Quantizer) wholeSteps(l *Line) []float64 {
	for i := range t.Axes {
		t.stepped[i] = t.Axes[i].Stepped(l.Steps[i])
	}
	return t.stepped
}

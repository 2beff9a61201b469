// Package pull is how a hand turns the ring of a lens over the loop, what is marked on
// the ring for it, and how quickly a hand gets from mark to mark.
//
// A focus is the distance from the lens to the plane in focus, in mm. Times are real
// seconds from captured frame 0.
package pull

import (
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/law"
	"seamrail/motion/track"
)

// Pull is what the hand is to do. It is immutable.
type Pull struct {
	Hand  string // whose
	Beats int64  // that are counted to each of its ways
	// Product is set where focus stays on the product's near face; else it goes along
	// Marks.
	Product bool
	Marks   []track.Key // only time, place and hold count
	// Between is the law from one mark to the next, from rest to rest; nil is the
	// smoothest curve that never passes a mark.
	Between law.Law

	Loop exact.Rat // real s of the loop that the times are of
	// Paced is set where the rig sets the pace: its times are then shares of the loop,
	// whatever that comes to last.
	Paced bool
}

// Course is the focus over one loop, which goes on for ever.
type Course struct {
	track   *track.Track
	quicker float64 // s of the track in a second
	loop    float64
}

// Over returns the focus along the marks over a loop of so many real seconds. It fails
// where the times do not fit it.
func (p *Pull) Over(loop exact.Rat) (*Course, error) {
	of := loop
	if p.Paced {
		of = p.Loop
	}
	var t *track.Track
	var err error
	if p.Between == nil {
		t, err = track.Keys(of, track.KeysSpec{Keys: p.Marks, Monotone: true})
	} else {
		t, err = track.Stations(of, track.StationsSpec{Keys: p.Marks, Law: p.Between})
	}
	if err != nil {
		return nil, err
	}
	return &Course{t, of.Quo(loop).Float(), loop.Float()}, nil
}

// At returns the focus at sec of an endless loop, in mm.
func (c *Course) At(sec float64) float64 {
	return c.track.At(c.quicker * (sec - c.loop*math.Floor(sec/c.loop))).Pos
}

// Nearest returns the nearest focus of the loop, and when it is.
func (c *Course) Nearest() (mm, sec float64) {
	x := c.track.Extremes().Min
	return x.Value, x.Time / c.quicker
}

// Way is a stretch of the loop in which the ring goes one way. One that begins before the
// seam and ends behind it ends later than the loop.
type Way struct {
	From, To     float64 // s
	Begins, Ends float64 // mm
}

// Seconds is how long it takes.
func (w Way) Seconds() float64 { return w.To - w.From }

// still is the share of the focus by which it may change and count as at rest: curves are
// evaluated to a part in 1e13, and no ring is set to a part in a million.
const still = 1e-6

// Ways finds them in a focus that is known at evenly spaced instants of the loop, the
// seam being the first of them again: where a hand sets out, turns round and arrives.
func Ways(loop float64, focus []float64) []Way {
	n := len(focus)
	step := loop / float64(n)
	dir := func(i int) int {
		d := focus[(i+1)%n] - focus[i%n]
		switch {
		case math.Abs(d) <= still*focus[i%n]/float64(n):
			return 0
		case d > 0:
			return 1
		}
		return -1
	}
	first := -1 // where a way begins, so that none is cut in two by the seam
	for i := range n {
		if dir(i) != 0 && dir(i+n-1) != dir(i) {
			first = i
			break
		}
	}
	var out []Way
	if first < 0 {
		return nil
	}
	for i := first; i < first+n; {
		d := dir(i)
		j := i
		for j < first+n && dir(j) == d {
			j++
		}
		if d != 0 {
			out = append(out, Way{step * float64(i), step * float64(j), focus[i%n], focus[j%n]})
		}
		i = j
	}
	return inOrder(loop, out)
}

// inOrder has ways begin within the loop, in the order of time.
func inOrder(loop float64, ways []Way) []Way {
	k := 0
	for k < len(ways) && ways[k].From < loop {
		k++
	}
	out := make([]Way, 0, len(ways))
	for _, w := range ways[k:] {
		w.From, w.To = w.From-loop, w.To-loop
		out = append(out, w)
	}
	return append(out, ways[:k]...)
}

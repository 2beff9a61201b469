package timeline

import (
	"cmp"
	"fmt"
	"slices"

	"seamrail/motion/base/exact"
)

// Mark is something at a frame of the clip.
type Mark struct {
	Frame int64
	What  What
	Name  string
	// At is when exactly it is, in seconds on screen from the clip's first frame.
	At exact.Rat
}

// What a mark is of.
type What int

// What marks are of.
const (
	FrameZero What = iota // frame 0 of a shot's loop comes
	CutMark               // one shot ends and the next begins
	SeamMark              // a loop meets its own beginning
	CueMark               // what a hand does is seen
)

// Colour is that of its marks in lists for other programs, of those that OpenTimelineIO names.
func (w What) Colour() string { return [...]string{"GREEN", "BLUE", "RED", "YELLOW"}[w] }

// mark notes where frame 0 of each loop comes, and the joins.
func (t *Timeline) mark() {
	for _, e := range t.Events {
		if e.Again {
			continue
		}
		p := t.Piece(e)
		for f := (p.Loop() - e.From) % p.Loop(); f < e.Frames; f += p.Loop() {
			t.add(e.Start+f, FrameZero, "frame 0 of "+p.Entry.File)
		}
	}
	for i, j := range t.Joins {
		switch {
		case j.Frame >= t.Clip.Frames:
		case j.Kind == Cut:
			t.add(j.Frame, CutMark, fmt.Sprintf("cut %d to %d", t.Events[i].Piece+1, t.Events[(i+1)%len(t.Events)].Piece+1))
		case j.Kind == Seam:
			t.add(j.Frame, SeamMark, "seam of "+t.Piece(t.Events[i]).Entry.File)
		}
	}
	t.sort()
}

func (t *Timeline) add(frame int64, what What, name string) {
	t.Marks = append(t.Marks, Mark{frame, what, name, exact.Int(frame).Quo(t.Clip.Playback)})
}

func (t *Timeline) sort() {
	slices.SortStableFunc(t.Marks, func(a, b Mark) int {
		return cmp.Or(a.At.Cmp(b.At), cmp.Compare(a.What, b.What))
	})
}

// Seen is something in a shot that a hand did.
type Seen struct {
	Name   string
	Screen exact.Rat              // the timeline frame of the loop that shows it, whole or not
	In     func(round int64) bool // whether it happens in a round of the take, from 1
}

// MarkCues adds what hands do in the shot of each piece, wherever it is seen: in those
// rounds of the take in which it happens.
func (t *Timeline) MarkCues(of [][]Seen) {
	for _, e := range t.Events {
		if e.Again {
			continue
		}
		for _, c := range of[e.Piece] {
			t.markCue(e, c)
		}
	}
	t.sort()
}

// markCue goes through the rounds that an event shows.
func (t *Timeline) markCue(e Event, c Seen) {
	loop := t.Piece(e).Loop()
	for n := int64(0); n*loop < e.From+e.Frames; n++ {
		at := c.Screen.Add(exact.Int(n*loop - e.From)) // frames of the event
		if at.Sign() < 0 || !at.Less(exact.Int(e.Frames)) || !c.In(e.Round+n+1) {
			continue
		}
		on := at.Add(exact.Int(e.Start))
		t.Marks = append(t.Marks, Mark{on.Floor().Whole(), CueMark, c.Name, on.Quo(t.Clip.Playback)})
	}
}

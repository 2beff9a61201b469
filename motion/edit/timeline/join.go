package timeline

import (
	"fmt"
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/edit/sequence"
)

// Kind is what lies between two events.
type Kind int

// The kinds of joins.
const (
	GoesOn Kind = iota // nothing: the next frame of the same take
	Cut                // from one piece into the next
	Seam               // within a piece: the end of its loop, and its beginning again
)

// Join is how an event leads into the next.
type Join struct {
	Kind    Kind
	Frame   int64 // the clip's, that the second begins with; its length where the clip comes round
	Meeting       // how the picture goes on across it
	// Off is by how many px at most the two takes were off their plans beside it, by what
	// was reported of them; OffKnown where that was seen of both and the picture is known.
	Off      float64
	OffKnown bool
	// In and Out are the frames before and after Frame over which it dissolves; both are 0
	// for a cut. Stated is set where the sequence says so.
	In, Out int64
	Stated  bool
	// Most is the longest dissolve that the frames beside it bear, and Lacks says what they
	// do not bear of what was wanted; "" where they do.
	Most  int64
	Lacks string
}

// Length is how long it dissolves, in frames.
func (j Join) Length() int64 { return j.In + j.Out }

// join looks at what lies between the events, and dissolves where that is asked for or a
// seam would show.
func (t *Timeline) join() error {
	n := len(t.Events)
	for i := range t.Events {
		j, err := t.between(t.Events[i], t.Events[(i+1)%n])
		if err != nil {
			return err
		}
		t.Joins = append(t.Joins, j)
	}
	for i := range t.Joins {
		t.dissolve(i)
	}
	return nil
}

// between looks at what lies between two events.
func (t *Timeline) between(a, b Event) (Join, error) {
	p, q := t.Piece(a), t.Piece(b)
	j := Join{Kind: Cut, Frame: a.End()}
	if a.Piece == b.Piece && a.End() == b.Start {
		j.Kind = Seam
	}
	var err error
	if j.Off, j.OffKnown, err = t.off(a, b); err != nil {
		return j, err
	}
	if goesOn(p, q, a, b) {
		j.Kind = GoesOn
		return j, nil
	}
	j.Meeting, err = meet(p, a.From+a.Frames-1, q, b.From)
	return j, err
}

// Meeting is how the picture goes on from one frame to another.
type Meeting struct {
	Carry sequence.Carry
	Known bool
	Shows bool // what jumps would be seen
}

// meet looks at how a frame of a piece leads into one of another.
func meet(p sequence.Piece, out int64, q sequence.Piece, in int64) (m Meeting, err error) {
	if m.Carry, m.Known, err = p.Carries(out, q, in); err != nil || !m.Known {
		return m, err
	}
	usual, err := p.Usual(out, q, in)
	m.Shows = m.Carry.Shows(p.Bounds(), usual)
	return m, err
}

// loops looks at the seam of the loop that each event is of, as if it were shown again and
// again, and at how far its take was off there.
func (t *Timeline) loops() error {
	known := map[int]Meeting{} // by film
	for i := range t.Events {
		e := &t.Events[i]
		p := t.Piece(*e)
		m, ok := known[p.Film]
		if !ok {
			var err error
			if m, err = meet(p, p.Loop()-1, p, 0); err != nil {
				return err
			}
			known[p.Film] = m
		}
		e.Loop = m
	}
	return nil
}

// off adds up by how many px the takes of two events may be off where one leads into the
// other: every axis at its worst, each the way that is worse.
func (t *Timeline) off(a, b Event) (px float64, known bool, err error) {
	for _, side := range []struct {
		e     Event
		frame int64
	}{{a, a.From + a.Frames - 1}, {b, b.From}} {
		if len(side.e.Off) == 0 {
			return 0, false, nil
		}
		per, err := t.Piece(side.e).PerUnit(side.frame)
		if err != nil || per == nil {
			return 0, false, err
		}
		for _, o := range side.e.Off {
			px += math.Abs(o.Value) * per[o.Axis]
		}
	}
	return px, true, nil
}

// goesOn tells whether an event begins with the frame after that which another ends with:
// in the same take or, of a loop that goes on at its seam, in another round of it.
func goesOn(p, q sequence.Piece, a, b Event) bool {
	if p.Film != q.Film || a.Number() != b.Number() {
		return false
	}
	loop := p.Loop()
	next := a.From + a.Frames
	return next%loop == b.From%loop && (p.Closed() || next%loop != 0)
}

// dissolve gives a join its length: as stated, or half a second where a seam of a loop
// shows and nothing is stated.
func (t *Timeline) dissolve(i int) {
	j := &t.Joins[i]
	n := len(t.Events)
	a, b := t.Events[i], t.Events[(i+1)%n]
	p := t.Piece(a)
	closing := i == n-1
	wanted := int64(0)
	switch own := j.Kind == Cut && p.Film == t.Piece(b).Film && closing; {
	case j.Kind == GoesOn:
		return
	case j.Kind == Cut && p.Entry.Stated():
		wanted, j.Stated = p.Dissolve, true
	case (j.Kind == Seam || own) && j.Shows:
		wanted = min(sequence.MaxDissolve, max(leastDissolve, int64(t.Clip.Playback.Float()/2)))
	}
	if wanted == 0 {
		return
	}
	beforeMost, afterMost := min(b.Before, t.room(i)), min(a.After, t.room((i+1)%n))
	there := b.Before + a.After // in the takes, however short the shots are
	if closing {                // all of it before the end: what comes after is the beginning, which stays
		afterMost, there = 0, b.Before
	}
	j.Most = beforeMost + afterMost
	length := min(wanted, j.Most)
	switch {
	case length < wanted && j.Stated:
		j.Lacks = fmt.Sprintf("a dissolve of %s is asked for, and the takes have %d beside the cut: \"%d frames\" would fit, or a take of more rounds", plain.Count(wanted, "frame"), j.Most, j.Most)
		if there >= wanted {
			j.Lacks = fmt.Sprintf("a dissolve of %s is asked for, and no more than half of a shot dissolves at one end of it: \"%d frames\" would fit, or longer shots", plain.Count(wanted, "frame"), j.Most)
		}
		return
	case length < leastDissolve:
		j.Lacks = fmt.Sprintf("a dissolve would hide it, and the takes have %d frames beside it: a take of more rounds, or a piece that begins later in the loop, would do", j.Most)
		return
	}
	j.In = min(beforeMost, max(length/2, length-afterMost))
	j.Out = length - j.In
}

// leastDissolve is how many frames a dissolve that nobody asked for has at least: two
// mixed pictures are still a flicker.
const leastDissolve = 4

// room is how many frames of an event a dissolve at one of its ends may take: half of it,
// so that two never meet.
func (t *Timeline) room(i int) int64 { return t.Events[i].Frames / 2 }

// comeRound lets the clip dissolve into its own beginning: its end is shortened, and what
// comes before its first frame takes the place.
func (t *Timeline) comeRound() {
	n := len(t.Events)
	j := &t.Joins[n-1]
	if j.In == 0 {
		return
	}
	last, first := &t.Events[n-1], t.Events[0]
	again := first
	p := t.Piece(first)
	per := p.Shot.Clock.PerScreen()
	again.Again, again.Start, again.Frames = true, t.Clip.Frames-j.In, j.In
	again.From -= j.In
	again.Used = per.Mul(exact.Int(j.In))
	again.First = first.First.Sub(again.Used)
	again.Before, again.After = first.Before-j.In, first.After+first.Frames
	last.cut(j.In, t.Piece(*last).Shot.Clock.PerScreen())
	t.Events = append(t.Events, again)
	// The dissolve now begins with the stretch that was added, which leads on by itself.
	into := *j
	into.Frame, into.In, into.Out = again.Start, 0, again.Frames
	t.Joins = append(t.Joins[:n-1], into, Join{Kind: GoesOn, Frame: t.Clip.Frames})
}

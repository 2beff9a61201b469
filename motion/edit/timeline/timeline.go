// Package timeline lays a clip out from what was filmed of it: which take each stretch is
// from, with exact frames of it, and how each stretch leads into the next.
//
// Frames of the clip are whole and count from 0. Frames of a take are captured ones and
// count from 0 at the first in which it moves, as in the table of kept takes; where the
// edit uses part frames they are exact rationals, and the frame that is shown is the whole
// one at or before.
package timeline

import (
	"fmt"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/edit/filmed"
	"seamrail/motion/edit/selects"
	"seamrail/motion/edit/sequence"
)

// Footage is what there is of a piece: the take that is seen.
type Footage struct {
	Take   int          // its number in the log; 0 where none is kept yet
	Rounds int64        // that it has, or is to have
	Clip   string       // what the camera calls its recording; "" = not known
	Film   *filmed.Film // its file, where somebody has looked through it and kept it
	Notes  []string
	Off    []selects.Off // by how much it was off its plan at the worst, where that was seen
}

// Planned tells whether the take is the one that the plan foresees: not filmed yet.
func (f Footage) Planned() bool { return f.Take == 0 }

// Number is what the take is called in names: 1 for one that is to be filmed.
func (f Footage) Number() int { return max(1, f.Take) }

// Name is what the take is called: "take 2", or "take 1, not filmed yet".
func (f Footage) Name() string {
	if f.Planned() {
		return "take 1, not filmed yet"
	}
	return fmt.Sprintf("take %d", f.Take)
}

// Event is a stretch of one take, shown without a break.
type Event struct {
	Footage
	Piece  int    // of the clip
	Reel   string // what an edit list calls the recording
	Start  int64  // of the clip
	Frames int64  // of the clip, at least 1
	From   int64  // the frame of its shot's loop that it begins with, on the timeline
	Round  int64  // of the take, from 0, that it begins in
	// First is the captured frame of the take that it begins with, Used how many it
	// uses, and Recorded how many the take has. All are exact. Of a take whose film is known they
	// are frames of that file, from 0.
	First, Used exact.Rat
	Recorded    int64
	// Before and After are the frames of the timeline beside it that the take has at pace.
	Before, After int64
	// Loop is how the loop of its shot meets its own beginning.
	Loop Meeting
	// Again is set on the stretch at the clip's end over which the clip dissolves into its
	// own beginning: it is what comes before the first piece's first frame, and its From
	// may be below 0.
	Again bool
}

// End is the clip's frame after its last.
func (e Event) End() int64 { return e.Start + e.Frames }

// Last is the captured frame of the take that its last frame shows.
func (e Event) Last(perScreen exact.Rat) int64 {
	return e.First.Add(exact.Int(e.Frames - 1).Mul(perScreen)).Floor().Whole()
}

// Timeline is a clip as it is handed on. Events follow one another from frame 0 of the
// clip to its end without a gap.
type Timeline struct {
	Clip   *sequence.Clip
	Events []Event
	Joins  []Join // one an event: how it leads into the next, the last into the first again
	Marks  []Mark // by their frames
}

// MaxEvents bounds the stretches of a clip: ten times what any list of edits holds.
const MaxEvents = 10_000

// Of lays a clip out from the footage of its pieces. It panics where these are not as
// many. The error is what a scene is wrong with.
func Of(c *sequence.Clip, footage []Footage) (Timeline, error) {
	if len(footage) != len(c.Pieces) {
		panic(fmt.Sprintf("timeline: footage of %d pieces for %d", len(footage), len(c.Pieces)))
	}
	t := Timeline{Clip: c}
	reels, err := namesOf(c, footage)
	if err != nil {
		return t, err
	}
	for i, p := range c.Pieces {
		for _, e := range stretches(p, footage[i]) {
			e.Piece, e.Reel = i, reels[i]
			t.Events = append(t.Events, e)
		}
		if len(t.Events) > MaxEvents {
			return t, fault.List{p.Entry.Unfit(c.File, fmt.Sprintf("is shown round by round, which makes more than %d stretches of the clip; fewer rounds would do", MaxEvents))}
		}
	}
	for _, look := range []func() error{t.loops, t.join} {
		if err := look(); err != nil {
			return t, err
		}
	}
	t.comeRound()
	t.mark()
	return t, nil
}

// stretches are the events of a piece: one where its take shows all of it in one go. A
// loop that goes on at its seam is shown through as many rounds as the take has, the
// middle ones if it has more; one that is cut back is shown round by round.
func stretches(p sequence.Piece, f Footage) []Event {
	loop, from, left, start := p.Loop(), p.From, p.Frames, p.Start
	var out []Event
	for left > 0 && len(out) <= MaxEvents {
		n := left
		if !p.Closed() {
			n = min(n, loop-from)
		}
		n = min(n, f.Rounds*loop-from)
		rounds := (from + n - 1) / loop // passed on the way
		out = append(out, stretch(p, f, start, from, n, (f.Rounds-rounds)/2))
		left, start, from = left-n, start+n, (from+n)%loop
	}
	return out
}

// stretch is one event, from a round of the take on.
func stretch(p sequence.Piece, f Footage, start, from, frames, round int64) Event {
	up, down := p.Trajectory.RampFrames()
	all := p.Trajectory.RoundFrames()
	per := p.Shot.Clock.PerScreen()
	e := Event{Footage: f, Start: start, Frames: frames, From: from, Round: round, Recorded: up + f.Rounds*all + down}
	begins := exact.Int(round * all).Add(exact.Int(from).Mul(per)) // at pace
	e.First, e.Used = exact.Int(up).Add(begins), exact.Int(frames).Mul(per)
	e.Before = begins.Quo(per).Floor().Whole()
	e.After = exact.Int(f.Rounds * all).Sub(begins).Sub(e.Used).Quo(per).Floor().Whole()
	e.inFilm(up, all, per)
	return e
}

// InFilm tells whether its frames are those of a file that was looked through.
func (f Footage) InFilm() bool { return f.Film != nil && f.Film.Known() }

// inFilm counts the frames of an event as its file has them, which may lack some of the take: then
// it is of the nearest round that is there, or lacks what it lacks.
func (e *Event) inFilm(up, all int64, per exact.Rat) {
	if !e.InFilm() {
		return
	}
	begins := e.First.Add(exact.Int(e.Film.Offset(up, all)))
	ends, last := begins.Add(e.Used), exact.Int(e.Film.Frames)
	by := int64(0) // rounds later
	switch {
	case begins.Sign() < 0:
		by = begins.Neg().Quo(exact.Int(all)).Ceil().Whole()
	case last.Less(ends):
		by = -ends.Sub(last).Quo(exact.Int(all)).Ceil().Whole()
	}
	if e.Round+by < 0 || e.Round+by >= e.Rounds {
		by = 0
	}
	more := exact.Int(by * all)
	begins, ends = begins.Add(more), ends.Add(more)
	e.Before += more.Quo(per).Floor().Whole()
	e.After -= more.Quo(per).Ceil().Whole()
	e.First, e.Round, e.Recorded = begins, e.Round+by, e.Film.Frames
	e.Before = max(0, min(e.Before, begins.Quo(per).Floor().Whole()))
	e.After = max(0, min(e.After, last.Sub(ends).Quo(per).Floor().Whole()))
}

// Lacks is how many frames of its film an event would use that the film does not have.
func (e Event) Lacks() int64 {
	if !e.InFilm() {
		return 0
	}
	before, after := e.First.Neg().Ceil().Whole(), e.First.Add(e.Used).Sub(exact.Int(e.Recorded)).Ceil().Whole()
	return max(0, before) + max(0, after)
}

// cut takes frames off an event's end, which are then there as handles.
func (e *Event) cut(frames int64, perScreen exact.Rat) {
	e.Frames -= frames
	e.Used = e.Used.Sub(exact.Int(frames).Mul(perScreen))
	e.After += frames
}

// Piece is what an event is part of.
func (t Timeline) Piece(e Event) sequence.Piece { return t.Clip.Pieces[e.Piece] }

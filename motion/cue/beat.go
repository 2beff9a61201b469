package cue

import (
	"iter"
	"slices"

	"seamrail/motion/base/exact"
)

// Beat is one beat of a count.
type Beat struct {
	At    exact.Rat // real s from frame 0 of the take
	Cue   int       // index in the sheet; CountIn for a beat of the count-in, SyncTone for a sync mark
	Round int64     // of the event, from 0
	Left  int64     // beats still to come; 0 is now
}

// CountIn stands for the cue of beats that count the take in. The last of them,
// with nothing left, is when motion begins.
const CountIn = -1

// source is a beat that comes back each round, or once.
type source struct {
	beat Beat // in round 0; At is then
	cell int64
	once bool
}

// Beats are the beats of every count in a take of so many rounds, in order of
// time; 0 rounds never end. In one instant, the first cue of the file is first.
func (s Sheet) Beats(rounds int64) iter.Seq[Beat] { return s.play(s.sources(), rounds) }

// Take is Beats with a count-in of so many beats, one a second, before motion
// begins.
func (s Sheet) Take(rounds, countIn int64) iter.Seq[Beat] {
	all := s.sources()
	for left := range countIn + 1 {
		at := s.Begins().Sub(exact.Int(left))
		all = append(all, source{beat: Beat{At: at, Cue: CountIn, Left: left}, cell: s.cell(at), once: true})
	}
	if m := s.Sync; m != nil {
		all = append(all, source{beat: Beat{At: m.At, Cue: SyncTone}, cell: s.cell(m.At), once: true})
	}
	return s.play(all, rounds)
}

// Begins returns when motion begins: at frame 0, or a run-up before it.
func (s Sheet) Begins() exact.Rat { return s.Plan.Loop.Clock.FrameTime(-s.Plan.RunUp) }

// Ends returns when the motion of a take of so many rounds ends.
func (s Sheet) Ends(rounds int64) exact.Rat {
	return s.Plan.Round().Mul(exact.Int(rounds)).Add(s.Plan.Loop.Clock.FrameTime(s.Plan.RunOut))
}

func (s Sheet) sources() []source {
	var out []source
	for i, c := range s.Cues {
		for left := range c.Beats + 1 {
			at := c.Now().Sub(c.Beat.Mul(exact.Int(left)))
			out = append(out, source{beat: Beat{At: at, Cue: i, Left: left}, cell: s.cell(at)})
		}
	}
	return out
}

// cell is the round, counted from frame 0 of the take, that holds a time.
func (s Sheet) cell(t exact.Rat) int64 { return t.Quo(s.Plan.Round()).Floor().Whole() }

// play goes through the take round by round. A beat that is q rounds before its
// event comes, in round k, from the event of round k + q: so each round holds
// each beat once at most, and need only be put in order.
func (s Sheet) play(all []source, rounds int64) iter.Seq[Beat] {
	return func(yield func(Beat) bool) {
		if len(all) == 0 {
			return
		}
		first, last := all[0].cell, all[0].cell
		for _, x := range all {
			first, last = min(first, x.cell), max(last, x.cell)
		}
		if rounds == 0 {
			rounds = s.lastRound()
		}
		for k := first; rounds == 0 || k < rounds+last; k++ {
			for _, b := range s.within(all, k, rounds) {
				if !yield(b) {
					return
				}
			}
		}
	}
}

// lastRound returns the last round in which anything happens, or 0 if there is
// no last. A sheet without a cue has its count-in.
func (s Sheet) lastRound() int64 {
	last := int64(1)
	for _, c := range s.Cues {
		if c.Rounds == nil {
			return 0
		}
		last = max(last, c.Rounds[len(c.Rounds)-1])
	}
	return last
}

// within lists the beats in round k of the take.
func (s Sheet) within(all []source, k, rounds int64) []Beat {
	var out []Beat
	for _, x := range all {
		b := x.beat
		b.Round = k - x.cell
		switch {
		case b.Round < 0 || rounds > 0 && b.Round >= rounds:
			continue
		case x.once && b.Round > 0:
			continue
		case b.Cue >= 0 && !s.Cues[b.Cue].In(b.Round+1):
			continue
		}
		b.At = b.At.Add(s.Plan.Round().Mul(exact.Int(b.Round)))
		out = append(out, b)
	}
	slices.SortStableFunc(out, func(a, b Beat) int { return a.At.Cmp(b.At) })
	return out
}

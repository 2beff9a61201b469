// Package selects tells which frames of a recording are kept: the source range of
// each take, what lies on either side of it, and where its seam is.
//
// Frames are counted from 0 at the first one of the take: that at which the
// run-up sets off, or frame 0 of the first round where nothing runs up. A camera
// that was started earlier has so many frames before it. Where its file was looked through,
// Select.Film has the same in frames of that.
package selects

import (
	"fmt"
	"slices"

	"seamrail/motion/cue/syncmark"
	"seamrail/motion/edit/filmed"
	"seamrail/motion/plan"
	"seamrail/motion/spec/shot"
)

// Filmed is a take to keep, as the log of takes tells it.
type Filmed struct {
	Number int
	Plan   string // the hash of the plan that it was filmed by
	Rounds int64  // that were run to their end
	Held   bool   // it was stopped and went on, out of step with the frames
	Cut    bool   // nothing is told of its end
	Ended  string // how, if it was not at the end of its last round
	Clip   string // what the camera calls its recording; "" = not known
	Notes  []string
	Off    []Off
	From   int64          // of one frame by frame: the first, where those before are of an earlier take
	Marks  *syncmark.Made // when its sync marks were made; nil where the log says nothing of them
	Film   *filmed.Film   // the camera's file, as it was found to be the take; nil where nobody has looked
}

// Off is by how much an axis was off the plan at the worst, as reports of it showed.
type Off struct {
	Axis, Unit string // mm or deg
	Value      float64
}

// Select is what is kept of one take.
type Select struct {
	Take          int      // its number, 0 for the take that the plan foresees
	Clip          string   // what the camera calls its recording; "" = not known
	Notes         []string // on the take, in the order they were made
	Off           []Off    // where that was seen
	Rounds, Round int64    // how many rounds it has, and which is kept, from 0
	Recorded      int64    // captured frames of the whole take
	First, Last   int64    // recorded frames that are kept, both of them included
	Before, After int64    // frames beside them that were recorded at pace, as many as the plan's handles ask

	// Film is the camera's file, in whose frames and timecode the edit is told of what is kept; nil
	// where nobody has looked through it.
	Film *filmed.Film

	Sync  *syncmark.Found // where its frames are by its sync marks; nil where it has none, before Synced
	marks *syncmark.Made
}

// Name is what the take is called: "take 2", or "as planned".
func (s Select) Name() string {
	if s.Take == 0 {
		return "as planned"
	}
	return fmt.Sprintf("take %d", s.Take)
}

// Frames is how many frames are kept.
func (s Select) Frames() int64 { return s.Last - s.First + 1 }

// Seam is the first frame that is not delivered: it would show frame 0 of the
// loop once more or, in a loop that is cut, the way back to it.
func (s Select) Seam() int64 { return s.Last + 1 }

// LeftOut is a take whose frames cannot be told, and why.
type LeftOut struct {
	Take int
	Why  string
}

// Takes is what is kept of all takes of a plan.
type Takes struct {
	Plan    *plan.Plan
	Kept    []Select
	LeftOut []LeftOut
	Mark    *syncmark.Mark // by which they are found; nil = none, or before Synced
	Unread  int            // lines of the log that say nothing: a mark that was taken back may be among them
}

// Of returns what is kept. Of each take that is the round in its middle, the
// later one of two, which has the most of the move on either side. Where no take is named, it is the
// take that the plan foresees. A take that was filmed by another plan, has no
// end, no whole round or was held is left out: its frames do not follow the plan.
func Of(p *plan.Plan, takes []Filmed) Takes {
	out := Takes{Plan: p}
	if len(takes) == 0 {
		out.Kept = []Select{choose(p, int64(p.Rounds), shot.KeptRound(int64(p.Rounds)))}
	}
	hash := p.Hash()
	for _, f := range takes {
		if why := f.useless(hash, p.Loop.Captured); why != "" {
			out.LeftOut = append(out.LeftOut, LeftOut{f.Number, why})
			continue
		}
		s := choose(p, f.Rounds, shot.KeptRound(f.Rounds))
		if f.Film != nil && f.Film.Known() {
			s = inFilm(p, f)
		}
		s.Film = f.Film
		s.Take, s.Clip, s.Notes, s.Off, s.marks = f.Number, f.Clip, f.Notes, f.Off, f.Marks
		if f.From > 0 {
			s.Notes = append(slices.Clone(f.Notes), fmt.Sprintf("frames before %d are files of an earlier take: number them from frame 0 on", f.From))
		}
		out.Kept = append(out.Kept, s)
	}
	return out
}

// Synced is the takes with where their frames are by the sync mark of the shot, nil where
// it has none.
func (t Takes) Synced(m *syncmark.Mark) Takes {
	if m == nil {
		return t
	}
	kept := t.Kept
	t.Mark, t.Kept, t.LeftOut = m, nil, slices.Clone(t.LeftOut)
	for _, s := range kept {
		marks := s.marks
		if s.Take == 0 {
			planned := m.AsPlanned()
			marks = &planned
		}
		if marks != nil {
			found := m.In(*marks, s.Rounds)
			s.Sync = &found
		}
		if why := s.atOdds(); why != "" {
			t.LeftOut = append(t.LeftOut, LeftOut{s.Take, why})
			continue
		}
		t.Kept = append(t.Kept, s)
	}
	return t
}

// atOdds says that the sync mark has frame 0 of a take elsewhere in its film than what the film was
// kept by, and nobody has said which counts; else "".
func (s Select) atOdds() string {
	f := s.Film
	if f == nil || !f.Known() || f.Trusted || f.By == filmed.ByMark || s.Sync == nil || !s.Sync.Seen {
		return ""
	}
	by, apart := f.ApartFrom(s.Sync.Frame, s.Sync.Out)
	if !apart {
		return ""
	}
	return fmt.Sprintf("%s has frame 0 at frame %.1f by the picture and at %.1f, give or take %.1f, by the sync mark, %.1f frames apart: keep it anew and say which counts, with --trust",
		f.File, f.Zero, s.Sync.Frame, s.Sync.Out, by)
}

// inFilm is what is kept of a take in its film, with the handles that the film has.
func inFilm(p *plan.Plan, f Filmed) Select {
	s := choose(p, f.Rounds, f.Film.Round)
	s.Before, s.After = min(s.Before, f.Film.In), min(s.After, f.Film.Frames-f.Film.Out)
	return s
}

// useless says why nothing can be told of a take's frames, or "".
func (f Filmed) useless(hash string, shown int64) string {
	switch {
	case f.Cut:
		return "nothing is told of its end"
	case f.Ended != "":
		return fmt.Sprintf("it ended as %q: how many of its rounds are whole is not known", f.Ended)
	case f.Plan != hash:
		return fmt.Sprintf("it was filmed by another plan, %s", f.Plan)
	case f.Held:
		return "it was stopped and went on, out of step with the frames"
	case f.Rounds < 1:
		return "it has no whole round"
	case f.Film != nil && f.Film.Known() && !f.Film.Holds(f.Rounds, shown):
		return "what the log says of its film makes no sense: keep it anew"
	}
	return ""
}

// choose is a round of so many.
func choose(p *plan.Plan, rounds, round int64) Select {
	all, back := p.RoundFrames(), p.Back
	if p.ByFrame != nil { // on the way back nothing is exposed
		all, back = p.Loop.Captured, 0
	}
	s := Select{Rounds: rounds, Round: round, Recorded: p.RunUp + rounds*all + p.RunOut}
	s.First = p.RunUp + s.Round*all
	s.Last = s.First + p.Loop.Captured - 1
	s.Before = min(p.Handles, s.Round*all)
	s.After = min(p.Handles, (rounds-1-s.Round)*all+back)
	return s
}

// Labels are the timecodes of the first and the last frame of the loop on the
// timeline, "" where the playback rate has no timecode.
func (t Takes) Labels() (first, last string) {
	tc := t.Plan.Timecode
	if tc.Rate.Sign() <= 0 {
		return "", ""
	}
	return tc.Label(t.Plan.Start), tc.Label(t.Plan.Start + t.Plan.Loop.Screen - 1)
}

package laid

import (
	"fmt"
	"math"

	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/logbook"
	"seamrail/export/drive/takelog"
	"seamrail/export/report/footagereport"
	"seamrail/motion/edit/filmed"
	"seamrail/motion/footage/hands"
)

// Said is what a person says of a film that is to be kept.
type Said struct {
	Trust string   // TrustPicture or TrustMark: which counts where they have frame 0 apart; "" for neither
	Zero  *float64 // the frame of the film at which frame 0 of the plan is; nil for what was found
	Sure  float64  // how sure the picture is of Zero, where that is one of several that would do; 0 where a hand has set it
	In    *int64   // the first frame of the loop that is kept; nil for that of the round in the middle
}

// What is trusted where picture and sync mark differ.
const TrustPicture, TrustMark = "picture", "mark"

// Film is what a file of so many frames was found to be.
func Film(d footagereport.Data, file string, frames int64) filmed.Film {
	f := filmed.Film{
		File: file, Rate: d.Course.About.Rate, Timecode: d.Course.About.Start, Frames: frames, Verdict: d.Word(), Loop: loopOf(d),
	}
	if a := d.Plan.Verdict.Apart; !math.IsNaN(a) && !math.IsInf(a, 0) {
		f.Apart = a
	}
	f.Zero, f.Sure, f.By = ZeroOf(d)
	return f
}

// Kept is what the log of that name is to have of a film as a take, known to be that by what by
// tells, and what is told of it.
func Kept(d footagereport.Data, j *job.Job, log string, f filmed.Film, t takelog.Take, by string, s Said) (takelog.Record, *footagereport.Kept, error) {
	var none takelog.Record
	if d.Plan.Timeline {
		return none, nil, fmt.Errorf("%s has the frames of the timeline, not those that were captured: it is no take but what was delivered of one", f.File)
	}
	if s.Zero != nil {
		f.Zero, f.Sure, f.By, f.Trusted = *s.Zero, byEye, filmed.ByHand, true
		if s.Sure > 0 {
			f.Sure, f.By = s.Sure, filmed.ByPicture
		}
	} else if err := mark(&f, t, j, s.Trust); err != nil {
		return none, nil, err
	}
	p := j.Plan
	if f.Known() {
		var err error
		if s.In != nil {
			f, err = f.From(*s.In, t.End.Rounds, p.RoundFrames(), p.Loop.Captured, Runs(d))
		} else {
			f, err = f.Keep(t.End.Rounds, p.RoundFrames(), p.Loop.Captured, Runs(d))
		}
		if err != nil {
			return none, nil, fmt.Errorf("take %d: %w", t.Number, err)
		}
		f.Loop.AsGood = asGood(d, f)
		if n := int(f.In) - d.First; n >= 0 && n < len(d.Stills) {
			f.Still = d.Stills[n]
		}
	}
	words := &footagereport.Kept{Take: t.Number, By: by, Log: log, Film: f, Round: p.RoundFrames()}
	return logbook.RecordOf(t.Number, f, by, actions(d.Hands)), words, nil
}

// byEye is how sure frame 0 is that a person has set, in frames: anywhere within half a frame either
// way, and nowhere surer (JCGM 100, 4.3.7).
var byEye = 0.5 / math.Sqrt(3)

// mark holds frame 0 against the sync mark of the take, where that was seen. Where both tell it and
// they differ, somebody has to say which counts.
func mark(f *filmed.Film, t takelog.Take, j *job.Job, trust string) error {
	made := logbook.MarksOf(t)
	if j.Mark == nil || made == nil || !made.Saw {
		if trust == TrustMark {
			return fmt.Errorf("--trust mark: nobody has said where the sync mark of take %d is seen; \"seamrail takes --mark-seen\" does", t.Number)
		}
		f.Trusted = trust == TrustPicture && f.Known()
		return nil
	}
	found := j.Mark.In(*made, max(t.End.Rounds, 1))
	by, apart := f.ApartFrom(found.Frame, found.Out)
	switch {
	case !f.Known(), trust == TrustMark:
		// what is within so much either way, and nowhere surer, is so sure (JCGM 100, 4.3.7)
		f.Zero, f.Sure, f.By, f.Trusted = found.Frame, found.Out/math.Sqrt(3), filmed.ByMark, trust == TrustMark
	case trust == TrustPicture:
		f.Trusted = true
	case apart:
		return fmt.Errorf("take %d: %s has frame 0 at %.2f ± %.2g by the picture, and at %.1f, give or take %.1f, by the sync mark, %+.1f frames from it: --trust picture or --trust mark says which counts",
			t.Number, f.File, f.Zero, f.Sure, found.Frame, found.Out, by)
	}
	return nil
}

// loopOf is the best loop that was found, as long as it may be.
func loopOf(d footagereport.Data) filmed.Loop {
	if d.Loops == nil || len(d.Loops.Runs) == 0 {
		return filmed.Loop{}
	}
	r := d.Loops.Runs[0]
	return filmed.Loop{From: int64(d.First + r.First), Frames: int64(r.Length), Unseen: r.Unseen}
}

// asGood tells whether the loop that is kept is one of those that the best stands for.
func asGood(d footagereport.Data, f filmed.Film) bool {
	if f.Loop.Frames == 0 || f.Out-f.In != f.Loop.Frames {
		return false
	}
	r, in := d.Loops.Runs[0], int(f.In)-d.First
	return r.From <= in && in <= r.To
}

// actions are what the log is to have of them.
func actions(list []footagereport.Hand) []takelog.Action {
	var out []takelog.Action
	for _, h := range list {
		off := h.Seen.By
		if h.Seen.Kind == hands.Early {
			off = -off
		}
		out = append(out, takelog.Action{
			Cue: h.Called(), Round: int64(h.Round), How: h.Seen.Kind.String(), Off: int64(off), From: int64(h.Seen.First), To: int64(h.Seen.Last),
		})
	}
	return out
}

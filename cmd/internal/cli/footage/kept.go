package footage

import (
	"fmt"
	"math"

	"seamrail/cmd/internal/laid"
	"seamrail/cmd/internal/logbook"
	"seamrail/export/drive/takelog"
	"seamrail/export/report/footagereport"
	"seamrail/motion/edit/filmed"
	"seamrail/motion/footage/hands"
)

// record is what the log is to have of a film, and what is told of it.
func (k *Keep) record(one *kept) (takelog.Record, *footagereport.Kept, error) {
	var none takelog.Record
	d := one.seen.data
	f := filmed.Film{
		File: one.file, Rate: d.Course.About.Rate, Timecode: d.Course.About.Start, Frames: framesIn(one.seen),
		Verdict: d.Word(), Loop: loopOf(d),
	}
	if a := d.Plan.Verdict.Apart; !math.IsNaN(a) && !math.IsInf(a, 0) {
		f.Apart = a
	}
	f.Zero, f.Sure, f.By = laid.ZeroOf(d)
	if one.take == 0 {
		if err := k.byTime(one, f); err != nil {
			return none, nil, err
		}
	}
	t, err := k.log.Take(one.take, one.file)
	if err != nil {
		return none, nil, err
	}
	if err := k.mark(&f, t); err != nil {
		return none, nil, err
	}
	p := k.job.Plan
	if f.Known() {
		if f, err = f.Keep(t.End.Rounds, p.RoundFrames(), p.Loop.Captured, laid.Runs(d)); err != nil {
			return none, nil, fmt.Errorf("take %d: %w", t.Number, err)
		}
		f.Loop.AsGood = asGood(d, f)
		if n := int(f.In) - d.First; n >= 0 && n < len(d.Stills) {
			f.Still = d.Stills[n]
		}
	}
	words := &footagereport.Kept{Take: t.Number, By: one.by, Log: logbook.NameOf(k.shot), Film: f, Round: p.RoundFrames()}
	return logbook.RecordOf(t.Number, f, one.by, actions(d.Hands)), words, nil
}

// framesIn is how many frames a film has: as many as came, or as it says where not all were looked
// at.
func framesIn(s *seen) int64 {
	last := s.data.First + len(s.data.Course.Frames)
	if s.part {
		last = max(last, s.data.Course.About.Frames)
	}
	return int64(last)
}

// byTime looks for the take that a film is by when it was written and how long it is.
func (k *Keep) byTime(one *kept, f filmed.Film) error {
	when := wrote(one.film)
	if when.IsZero() || !f.Known() {
		return fmt.Errorf("which take %s is, is not known: %s; say it, as in --keep %s=1", one.file, why(f), one.file)
	}
	p := k.job.Plan
	var err error
	one.take, err = k.log.At(one.file, logbook.Shown{
		Wrote: when, Frames: f.Frames, Zero: f.Zero, PerSec: p.Loop.Clock.Capture.Float(), Round: p.RoundFrames(),
		RunUp: p.Loop.Clock.FrameTime(p.RunUp).Float(),
	})
	if err != nil {
		return err
	}
	return k.fits(one)
}

func why(f filmed.Film) string {
	if !f.Known() {
		return "where its frame 0 is cannot be told"
	}
	return "stills do not tell when the camera stopped"
}

// mark holds frame 0 against the sync mark of the take, where that was seen. Where both tell it and
// they differ, somebody has to say which counts.
func (k *Keep) mark(f *filmed.Film, t takelog.Take) error {
	made := logbook.MarksOf(t)
	if k.job.Mark == nil || made == nil || !made.Saw {
		if k.Trust == trustMark {
			return fmt.Errorf("--trust mark: nobody has said where the sync mark of take %d is seen; \"seamrail takes --mark-seen\" does", t.Number)
		}
		f.Trusted = k.Trust == trustPicture && f.Known()
		return nil
	}
	found := k.job.Mark.In(*made, max(t.End.Rounds, 1))
	by, apart := f.ApartFrom(found.Frame, found.Out)
	switch {
	case !f.Known(), k.Trust == trustMark:
		// what is within so much either way, and nowhere surer, is so sure (JCGM 100, 4.3.7)
		f.Zero, f.Sure, f.By, f.Trusted = found.Frame, found.Out/math.Sqrt(3), filmed.ByMark, k.Trust == trustMark
	case k.Trust == trustPicture:
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

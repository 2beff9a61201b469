package footage

import (
	"fmt"

	"seamrail/cmd/internal/laid"
	"seamrail/cmd/internal/logbook"
	"seamrail/export/drive/takelog"
	"seamrail/export/report/footagereport"
	"seamrail/motion/edit/filmed"
)

// record is what the log is to have of a film, and what is told of it.
func (k *Keep) record(one *kept) (takelog.Record, *footagereport.Kept, error) {
	d := one.seen.data
	f := laid.Film(d, one.file, framesIn(one.seen))
	if one.take == 0 {
		if err := k.byTime(one, f); err != nil {
			return takelog.Record{}, nil, err
		}
	}
	t, err := k.log.Take(one.take, one.file)
	if err != nil {
		return takelog.Record{}, nil, err
	}
	return laid.Kept(d, k.job, logbook.NameOf(k.shot), f, t, one.by, laid.Said{Trust: k.Trust})
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

package page

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/logbook"
	"seamrail/export/drive/takelog"
	"seamrail/export/report"
	"seamrail/motion/base/plain"
)

// Take is a take that was filmed.
type Take struct {
	Number  int      `json:"take"`
	Virtual bool     `json:"virtual"` // on a rig made of software, with a number of its own
	ByHand  bool     `json:"byHand"`  // it was not driven from here
	Began   string   `json:"began"`
	Rounds  int64    `json:"rounds"`
	Frames  int64    `json:"frames"` // of one frame by frame: exposed; 0 of another
	Of      int64    `json:"of"`     // how many it has in all; 0 where the log does not say
	End     string   `json:"end"`
	Keep    bool     `json:"keep"`
	Why     string   `json:"rejected"` // "" where it is not
	Clip    string   `json:"clip"`
	Driver  string   `json:"driver"`
	Group   string   `json:"group"`
	Pass    string   `json:"pass"`
	Notes   []string `json:"notes"`
	Plan    string   `json:"plan"`
}

// TakeMark marks a take; 0 is the last.
type TakeMark struct {
	Take int    `json:"take"`
	Keep *bool  `json:"keep"` // nil leaves it
	Note string `json:"note"`
	Clip string `json:"clip"`   // what the camera calls it
	Why  string `json:"reject"` // it is of no use
}

// TakeLog is a take that was filmed and not driven from here.
type TakeLog struct {
	Text   string  `json:"text"`   // the shot as it was filmed
	Rounds int64   `json:"rounds"` // 0 = as many as it has
	Took   float64 `json:"took"`   // s by a stopwatch, from setting out to rest; 0 = nobody looked
	Group  string  `json:"group"`
	Pass   string  `json:"pass"`
}

type takesQuestion struct {
	Mark *TakeMark `json:"mark"`
	Log  *TakeLog  `json:"log"`
}

type takesAnswer struct {
	Takes []Take `json:"takes"`
}

// takes lists the takes of the shot, and logs or marks one if asked to.
func (s *desk) takes(q takesQuestion) (*takesAnswer, error) {
	if q.Log != nil {
		if err := s.log(*q.Log); err != nil {
			return nil, err
		}
	}
	if q.Mark != nil {
		if err := s.mark(*q.Mark); err != nil {
			return nil, err
		}
	}
	list, err := s.filmed()
	return &takesAnswer{list}, err
}

type groupQuestion struct {
	Text  string `json:"text"`
	Group string `json:"group"`
}

// group tells how well the passes of a group match, as the takes command does.
func (s *desk) group(q groupQuestion) (*textAnswer, error) {
	d, err := logbook.Passes(s.shot, q.Group, func() (*job.Job, error) { return s.planned(q.Text) })
	if err != nil {
		return nil, err
	}
	var out strings.Builder
	err = report.TextWithin(&out, d.Report(), false, report.Narrowest)
	return &textAnswer{out.String()}, err
}

// log logs a take as the takes command does.
func (s *desk) log(q TakeLog) error {
	if err := logbook.Belongs(s.shot); err != nil {
		return err
	}
	j, err := s.planned(q.Text)
	if err != nil {
		return err
	}
	driver, err := logbook.Operator("", false)
	if err != nil {
		return err
	}
	_, err = logbook.LogByHand(s.shot, j, logbook.ByHand{Rounds: q.Rounds, Took: q.Took, Driver: driver, Group: q.Group, Pass: q.Pass}, time.Now())
	return err
}

// mark marks a take as the takes command does.
func (s *desk) mark(m TakeMark) error {
	if err := logbook.Belongs(s.shot); err != nil {
		return err
	}
	var marks []takelog.Record
	if m.Keep != nil {
		marks = append(marks, takelog.Record{Kind: takelog.Keeper, Keep: *m.Keep})
	}
	if m.Why != "" {
		why, err := takelog.Words("why it is of no use", m.Why)
		if err != nil {
			return err
		}
		marks = append(marks, takelog.Record{Kind: takelog.Refused, Why: why})
	}
	if m.Clip != "" {
		clip, err := takelog.ClipName(m.Clip)
		if err != nil {
			return err
		}
		marks = append(marks, takelog.Record{Kind: takelog.Clipped, Clip: clip})
	}
	if m.Note != "" {
		marks = append(marks, takelog.Record{Kind: takelog.Noted, Note: plain.Text(m.Note)})
	}
	switch {
	case len(marks) > 0:
		return logbook.Mark(s.shot, m.Take, marks, time.Now())
	case m.Take != 0:
		return errors.New("a take is named, and no mark for it: say whether it is one to keep, why not, which clip it is, or add a note")
	}
	return nil
}

func (s *desk) filmed() ([]Take, error) {
	out := []Take{}
	_, _, err := logbook.Walk(logbook.NameOf(s.shot), func(t takelog.Take) error {
		out = append(out, Take{
			Number: t.Number, Virtual: t.Virtual(), ByHand: t.Begin.ByHand, Began: t.Begin.Time.Format(time.RFC3339), Rounds: t.End.Rounds, Frames: t.Frames, Of: t.Begin.Of, End: string(t.End.Outcome),
			Keep: t.Keep, Why: t.Why, Clip: t.Clip, Driver: t.Begin.Driver, Group: t.Begin.Group, Pass: t.Begin.Pass, Notes: append([]string{}, t.Notes...), Plan: t.Begin.Plan,
		})
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("the log of takes: %w", err)
	}
	return out, nil
}

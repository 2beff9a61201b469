package page

import (
	"errors"
	"fmt"
	"net/http"
	"time"

	"seamrail/cmd/internal/logbook"
	"seamrail/export/drive/takelog"
	"seamrail/motion/base/plain"
)

// Take is a take that was filmed.
type Take struct {
	Number  int      `json:"take"`
	Virtual bool     `json:"virtual"` // on a rig made of software, with a number of its own
	Began   string   `json:"began"`
	Rounds  int64    `json:"rounds"`
	End     string   `json:"end"`
	Keep    bool     `json:"keep"`
	Notes   []string `json:"notes"`
	Plan    string   `json:"plan"`
}

// TakeMark marks a take; 0 is the last.
type TakeMark struct {
	Take int    `json:"take"`
	Keep *bool  `json:"keep"` // nil leaves it
	Note string `json:"note"`
}

// takes lists the takes of the shot, and marks one if asked to.
func (s *Server) takes(w http.ResponseWriter, r *http.Request) {
	var q struct {
		Mark *TakeMark `json:"mark"`
	}
	if !ask(w, r, &q) {
		return
	}
	if q.Mark != nil {
		if err := s.mark(*q.Mark); err != nil {
			fail(w, err)
			return
		}
	}
	list, err := s.filmed()
	if err != nil {
		fail(w, err)
		return
	}
	reply(w, http.StatusOK, map[string][]Take{"takes": list})
}

// mark marks a take as the takes command does.
func (s *Server) mark(m TakeMark) error {
	if err := logbook.Belongs(s.shot); err != nil {
		return err
	}
	var marks []takelog.Record
	if m.Keep != nil {
		marks = append(marks, takelog.Record{Kind: takelog.Keeper, Keep: *m.Keep})
	}
	if m.Note != "" {
		marks = append(marks, takelog.Record{Kind: takelog.Noted, Note: plain.Text(m.Note)})
	}
	switch {
	case len(marks) > 0:
		return logbook.Mark(s.shot, m.Take, marks, time.Now())
	case m.Take != 0:
		return errors.New("a take is named, and no mark for it: say whether it is one to keep, or add a note")
	}
	return nil
}

func (s *Server) filmed() ([]Take, error) {
	out := []Take{}
	_, _, err := logbook.Walk(logbook.NameOf(s.shot), func(t takelog.Take) error {
		out = append(out, Take{
			Number: t.Number, Virtual: t.Virtual(), Began: t.Begin.Time.Format(time.RFC3339), Rounds: t.End.Rounds, End: string(t.End.Outcome),
			Keep: t.Keep, Notes: append([]string{}, t.Notes...), Plan: t.Begin.Plan,
		})
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("the log of takes: %w", err)
	}
	return out, nil
}

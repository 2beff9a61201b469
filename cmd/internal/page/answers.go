package page

import (
	"bytes"
	"encoding/json"
	"io"
	"path/filepath"
	"strings"

	"seamrail/cmd/internal/clip"
	"seamrail/cmd/internal/format"
	"seamrail/cmd/internal/logbook"
	"seamrail/export/cuesheet"
	"seamrail/export/fitreport"
	"seamrail/export/sequencereport"
	"seamrail/export/spinreport"
)

// spin answers as the spin command does with --json, under some of its flags.
func (s *Server) spin(q asking) (any, error) {
	p, err := s.planned(q.Text)
	if err != nil {
		return nil, err
	}
	about, err := spinAsked(q.Flags)
	if err != nil {
		return nil, err
	}
	d, err := about.Find(p.Plan)
	return reported(err, func(out io.Writer) error { return spinreport.WriteJSON(out, d) })
}

// fit answers as the fit command does with --json, under some of its flags. That no loop
// would do is an answer.
func (s *Server) fit(q asking) (any, error) {
	x, m, err := s.doc.decode(q.Text)
	if err != nil {
		return nil, err
	}
	about, err := fitAsked(q.Flags)
	if err != nil {
		return nil, err
	}
	d, err := about.Find(x, m, "", nil)
	return reported(err, func(out io.Writer) error { return fitreport.WriteJSON(out, d) })
}

// reported passes a report on, or why there is none.
func reported(err error, write func(io.Writer) error) (json.RawMessage, error) {
	var out bytes.Buffer
	if err == nil {
		err = write(&out)
	}
	return out.Bytes(), err
}

// cues answers with the sheet that the cues command prints, under some of its flags.
func (s *Server) cues(q asking) (any, error) {
	p, err := s.planned(q.Text)
	if err != nil {
		return nil, err
	}
	about, err := cuesAsked(q.Flags)
	if err == nil {
		err = format.Cued(p)
	}
	if err != nil {
		return nil, err
	}
	sheet := p.Cues
	if !about.ignoreTakes {
		if sheet, err = logbook.Habitual(sheet, s.shot); err != nil {
			return nil, err
		}
	}
	var out strings.Builder
	err = cuesheet.Write(&out, sheet.ForTake(int64(p.Plan.Rounds), int64(about.countIn)))
	return map[string]string{"text": out.String()}, err
}

type sequenceQuestion struct {
	File string `json:"file"`
}

// sequence answers of a sequence file in the folder.
func (s *Server) sequence(q sequenceQuestion) (any, error) {
	if _, err := s.doc.read(q.File); err != nil { // also that it is in the folder
		return nil, err
	}
	j, err := clip.Read(filepath.Join(s.doc.root.Name(), filepath.FromSlash(q.File)), nil)
	return reported(err, func(out io.Writer) error { return sequencereport.WriteJSON(out, j.Report()) })
}

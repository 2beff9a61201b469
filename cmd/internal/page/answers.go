package page

import (
	"bytes"
	"encoding/json"
	"net/http"
	"path/filepath"
	"strings"

	"seamrail/cmd/internal/clip"
	"seamrail/cmd/internal/format"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/logbook"
	"seamrail/export/cuesheet"
	"seamrail/export/report"
)

// spin answers as the spin command does with --json, under some of its flags.
func (s *Server) spin(w http.ResponseWriter, r *http.Request) {
	var q asking
	p, ok := s.planAsked(w, r, &q, &q.Text)
	if !ok {
		return
	}
	about, err := spinAsked(q.Flags)
	if err != nil {
		fail(w, err)
		return
	}
	d, err := about.Find(p.Plan)
	answered(w, err, d)
}

// fit answers as the fit command does with --json, under some of its flags. That no loop
// would do is an answer.
func (s *Server) fit(w http.ResponseWriter, r *http.Request) {
	var q asking
	if !ask(w, r, &q) {
		return
	}
	x, m, err := s.doc.decode(q.Text)
	if err != nil {
		fail(w, err)
		return
	}
	about, err := fitAsked(q.Flags)
	if err != nil {
		fail(w, err)
		return
	}
	d, err := about.Find(x, m, "", nil)
	answered(w, err, d)
}

// answered passes a report on, or why there is none.
func answered(w http.ResponseWriter, err error, c report.Content) {
	var out bytes.Buffer
	if err == nil {
		err = report.JSON(&out, c.Facts())
	}
	if err != nil {
		fail(w, err)
		return
	}
	reply(w, http.StatusOK, json.RawMessage(out.Bytes()))
}

// cues answers with the sheet that the cues command prints, under some of its flags.
func (s *Server) cues(w http.ResponseWriter, r *http.Request) {
	var q asking
	p, ok := s.planAsked(w, r, &q, &q.Text)
	if !ok {
		return
	}
	text, err := s.cueSheet(p, q.Flags)
	if err != nil {
		fail(w, err)
		return
	}
	reply(w, http.StatusOK, map[string]string{"text": text})
}

func (s *Server) cueSheet(p *job.Job, flags map[string]string) (string, error) {
	about, err := cuesAsked(flags)
	if err != nil {
		return "", err
	}
	if err := format.Cued(p); err != nil {
		return "", err
	}
	sheet := p.Cues
	if !about.ignoreTakes {
		if sheet, err = logbook.Habitual(sheet, s.shot); err != nil {
			return "", err
		}
	}
	var out strings.Builder
	err = cuesheet.Write(&out, sheet.ForTake(int64(p.Plan.Rounds), int64(about.countIn)))
	return out.String(), err
}

// sequence answers of a sequence file in the folder.
func (s *Server) sequence(w http.ResponseWriter, r *http.Request) {
	var q struct {
		File string `json:"file"`
	}
	if !ask(w, r, &q) {
		return
	}
	if _, err := s.doc.read(q.File); err != nil { // also that it is in the folder
		fail(w, err)
		return
	}
	j, err := clip.Read(filepath.Join(s.doc.root.Name(), filepath.FromSlash(q.File)), nil)
	if err != nil {
		fail(w, err)
		return
	}
	answered(w, nil, j.Report())
}

package page

import (
	"net/http"
	"time"

	"seamrail/cmd/internal/job"
	"seamrail/motion/base/source"
)

// question is a text and what to change in it.
type question struct {
	Text  string `json:"text"`
	Edits []Edit `json:"edits"`
	Quick bool   `json:"quick"`
}

// Answer is the text after the changes and what it plans to.
type Answer struct {
	Text   string  `json:"text"`
	Millis float64 `json:"ms"`
	Faults []Fault `json:"faults"`
	View   *View   `json:"view"` // null where the text plans to nothing
}

func (s *Server) plan(w http.ResponseWriter, r *http.Request) {
	var q question
	if !ask(w, r, &q) {
		return
	}
	reply(w, http.StatusOK, s.answer(q))
}

func (s *Server) answer(q question) Answer {
	began := time.Now()
	out := Answer{Faults: []Fault{}}
	var err error
	if out.Text, err = s.edited(q.Text, q.Edits); err == nil {
		out.View, err = s.view(out.Text, q.Quick)
	}
	if err != nil {
		out.Faults = faultsOf(err)
	}
	out.Millis = float64(time.Since(began).Microseconds()) / 1000
	return out
}

// planAsked reads a question about a text, which is a part of it, and plans that. One
// that makes no sense, or whose text plans to nothing, has been refused.
func (s *Server) planAsked(w http.ResponseWriter, r *http.Request, question any, text *string) (*job.Job, bool) {
	if !ask(w, r, question) {
		return nil, false
	}
	p, err := s.planned(*text)
	if err != nil {
		fail(w, err)
		return nil, false
	}
	return p, true
}

// planned plans a text. What was asked for last is kept: the page asks of the
// same text again and again.
func (s *Server) planned(text string) (*job.Job, error) {
	x, r, err := s.doc.decode(text)
	if err != nil {
		return nil, err
	}
	if p, ok := s.plans.of(text, r); ok {
		return p, nil
	}
	p, err := job.Plan(x, r, false)
	if err == nil {
		s.plans.keep(text, r, p)
	}
	return p, err
}

// edited makes the changes one after the other. Where one cannot be made, it
// returns the text as far as it came.
func (s *Server) edited(text string, edits []Edit) (string, error) {
	for _, e := range edits {
		sets, err := s.sets(text, e)
		if err != nil {
			return text, err
		}
		for _, x := range sets {
			out, err := source.Set(s.doc.name, []byte(text), x.Path, x.Value)
			if err != nil {
				return text, err
			}
			text = string(out)
		}
	}
	return text, nil
}

// sets are the values that an edit gives: its own, or those where something was
// dragged to.
func (s *Server) sets(text string, e Edit) ([]Set, error) {
	if e.Value != nil {
		return []Set{{e.Path, *e.Value}}, nil
	}
	p, err := s.planned(text)
	if err != nil {
		return nil, err
	}
	return dragged(p, e)
}

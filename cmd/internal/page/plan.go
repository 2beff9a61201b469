package page

import (
	"reflect"
	"sync"
	"time"

	"seamrail/cmd/internal/job"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
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

func (s *Server) plan(q question) (any, error) { return s.answer(q), nil }

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

// planned plans a text. What was asked for last is kept: the page asks of the
// same text again and again.
func (s *Server) planned(text string) (*job.Job, error) {
	x, r, err := s.doc.decode(text)
	if err != nil {
		return nil, err
	}
	if p, ok := s.plans.of(x.Laid, text, r); ok {
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
			out, err := s.doc.set(text, x.Path, x.Value)
			if err != nil {
				return text, err
			}
			text = out
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

// plansKept is how many plans are kept: of the text that something is dragged
// from, of where it is now, and of the one the rig runs.
const plansKept = 3

// plans are those that were asked for last. A drag asks of the text it began
// with at every step.
type plans struct {
	mu   sync.Mutex
	kept []known // the newest first
}

type known struct {
	text string
	laid shot.Laid
	rig  rig.Rig
	plan *job.Job
}

// of returns the plan of a text on a rig, if it is kept.
func (x *plans) of(under shot.Laid, text string, r rig.Rig) (*job.Job, bool) {
	x.mu.Lock()
	defer x.mu.Unlock()
	for i, k := range x.kept {
		if k.text == text && reflect.DeepEqual(k.rig, r) && reflect.DeepEqual(k.laid.Values, under.Values) {
			copy(x.kept[1:i+1], x.kept[:i])
			x.kept[0] = k
			return k.plan, true
		}
	}
	return nil, false
}

// keep keeps a plan, and lets the one go that was asked for longest ago.
func (x *plans) keep(text string, r rig.Rig, p *job.Job) {
	x.mu.Lock()
	defer x.mu.Unlock()
	x.kept = append([]known{{text, p.Shot.Laid, r, p}}, x.kept[:min(len(x.kept), plansKept-1)]...)
}

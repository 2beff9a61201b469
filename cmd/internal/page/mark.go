package page

import (
	"errors"

	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/places"
)

// Place is what the place of an axis can be marked as.
type Place struct {
	Name  string `json:"name"`
	Means string `json:"means"`
	Now   string `json:"now"`
}

func placesOf(p *job.Job, axis string) []Place {
	return listOf(places.On(places.Of(p), axis), func(x places.Place) Place { return Place{x.Name, x.Means, x.Now.String()} })
}

// Mark is a place that was marked, as a value of the shot, and what of the plan would not
// do with it: the page asks before it sets that.
type Mark struct {
	Set
	Over  string   `json:"over,omitempty"` // the file under the shot that has the value now
	Wrong []string `json:"wrong"`
	Fits  []string `json:"fits"`
}

// marks remembers the text that a mark is asked for, if that has the place.
func (s *desk) marks(q doQuestion, axis string) error {
	if q.Text == "" {
		return errors.New("a mark is of a shot, whose text is to come with it")
	}
	p, err := s.planned(q.Text)
	if err != nil {
		return err
	}
	if _, err := places.Find(places.Of(p), axis, q.Name); err != nil {
		return err
	}
	s.driving.mu.Lock()
	defer s.driving.mu.Unlock()
	s.driving.marking = q.Text
	return nil
}

// marked is what a mark makes of the text that it was asked for.
func (s *desk) marked(name string, axis int, at float64) (Mark, error) {
	s.driving.mu.Lock()
	text, run := s.driving.marking, s.driving.run
	s.driving.mu.Unlock()
	if run == nil || axis >= len(run.first.Axes) {
		return Mark{}, errors.New("nobody drives the rig any more: nothing was marked")
	}
	p, err := s.planned(text)
	if err != nil {
		return Mark{}, err
	}
	x, err := places.Find(places.Of(p), run.first.Axes[axis].Name, name)
	if err != nil {
		return Mark{}, err
	}
	var m Mark
	m.Path = x.Path
	m.Value, m.Over = x.Says(at, p.Shot, []byte(text), s.doc.read)
	out, err := s.doc.set(text, m.Path, m.Value)
	if err != nil {
		return m, err
	}
	p, err = s.planned(out)
	if err != nil {
		return m, err
	}
	m.Wrong, m.Fits = places.Wrong(p)
	return m, nil
}

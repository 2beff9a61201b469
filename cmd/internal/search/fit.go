// Package search puts the questions about a shot that take a search: which loops suit a
// stand, and which loops keep the picture. They come as they were typed, and whatever is
// wrong with them is told by the name of the flag that says it.
package search

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"seamrail/cmd/internal/job"
	"seamrail/export/report/fitreport"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/picture"
	"seamrail/motion/law"
	"seamrail/motion/move"
	"seamrail/motion/plan/loopsearch"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// Fit asks for the quickest and the gentlest loop that keep the picture. Texts are as
// they were typed.
type Fit struct {
	Between []string // two on-screen times
	Laws    []string // none means all
	Accept  string   // the worst level a check may have
}

// Find asks of a shot on a rig, and words what cannot be searched. file is the name of
// the shot, "" for none; tell is told how many loops have been tried.
func (o Fit) Find(s shot.Shot, r rig.Rig, file string, tell func(loops int)) (fitreport.Data, error) {
	return o.FindUntil(context.Background(), s, r, file, tell)
}

// FindUntil is Find until ctx ends, whose error it then returns.
func (o Fit) FindUntil(ctx context.Context, s shot.Shot, r rig.Rig, file string, tell func(loops int)) (fitreport.Data, error) {
	if err := job.Choosable(r); err != nil {
		return fitreport.Data{}, err
	}
	scene, ok := lensview.Scene(s, r)
	if !ok {
		return fitreport.Data{}, job.ErrNoScene
	}
	q := loopsearch.Question{Shot: s, Rig: r, Scene: scene}
	if err := o.ask(&q); err != nil {
		return fitreport.Data{}, err
	}
	q.Tell = tell
	a, err := loopsearch.Search(ctx, q)
	if errors.Is(err, loopsearch.ErrRange) {
		return fitreport.Data{}, fmt.Errorf("--between: no loop from %d to %d frames has whole captured frames", q.From, q.To)
	}
	if err != nil {
		return fitreport.Data{}, lensview.Located(err, s)
	}
	d := fitreport.Data{Title: s.Title, Rig: r.Name, Question: q, Answer: a, Command: "seamrail plan"}
	if file != "" {
		d.Command += " " + file
	}
	if slices.ContainsFunc(s.Axes, func(m shot.AxisMove) bool { _, ok := m.Does.(move.Shuttle); return ok }) {
		d.Laws = q.Laws
	}
	return d, nil
}

// ask reads the flags. What they leave out is filled in, so that the report can
// say it.
func (o Fit) ask(q *loopsearch.Question) error {
	for _, l := range []picture.Level{picture.Good, picture.Fair, picture.Poor} {
		if o.Accept == l.String() {
			q.Accept = l
		}
	}
	if q.Accept == picture.Unknown {
		return fmt.Errorf("--accept %q must be good, fair or poor", o.Accept)
	}
	q.Laws = law.All()
	if len(o.Laws) > 0 {
		q.Laws = nil
	}
	for _, name := range o.Laws {
		l, err := law.Named(strings.TrimSpace(name))
		if err != nil {
			return fmt.Errorf("--laws: %w", err)
		}
		q.Laws = append(q.Laws, l)
	}
	return o.between(q)
}

func (o Fit) between(q *loopsearch.Question) error {
	q.From, q.To = loopsearch.Range(q.Shot)
	switch len(o.Between) {
	case 0:
		return nil
	case 2:
	default:
		return errors.New("--between needs the shortest and the longest loop, such as \"4 s,12 s\"")
	}
	for i, to := range []*int64{&q.From, &q.To} {
		t, err := unit.ParseAs(strings.TrimSpace(o.Between[i]), unit.Time)
		if err != nil {
			return fmt.Errorf("--between: %w", err)
		}
		frames := t.Value.Mul(q.Shot.Clock.Playback)
		if frames.Less(exact.Int(1)) || exact.Int(maxFitFrames).Less(frames) {
			return fmt.Errorf("--between %q must be from one to %d frames", strings.TrimSpace(o.Between[i]), maxFitFrames)
		}
		*to = frames.Round().Whole()
	}
	if q.From > q.To {
		return fmt.Errorf("--between %s must have the shorter loop first", strings.Join(o.Between, ","))
	}
	return nil
}

// maxFitFrames bounds the loops looked among: an hour at 24 a second.
const maxFitFrames = 100_000

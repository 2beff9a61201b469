package page

import (
	"context"
	"reflect"
	"sync"

	"seamrail/cmd/internal/job"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// depth is how far a plan has been looked at.
type depth int

const (
	posed    depth = iota // where everything stands, for who draws or drags
	sound                 // whether there is a plan at all
	sketched              // the picture in some of its frames: while something is dragged
	whole                 // all there is to say
)

// planned plans a text. What was asked for last is kept: the page asks of the
// same text again and again.
func (s *desk) planned(text string) (*job.Job, error) {
	return s.plannedTo(context.Background(), text, whole)
}

// plannedTo is planned, looked at no further than is wanted, until ctx ends.
func (s *desk) plannedTo(ctx context.Context, text string, want depth) (*job.Job, error) {
	x, r, err := s.doc.decode(text)
	if err != nil {
		return nil, err
	}
	if p, ok := s.plans.of(x.Laid, text, r, want); ok {
		return p, nil
	}
	var p *job.Job
	switch want {
	case posed:
		p, err = job.Posed(x, r)
	case sound:
		p, err = job.Sound(ctx, x, r)
	case sketched:
		p, err = job.Sketch(ctx, x, r)
	default:
		p, err = job.PlanUntil(ctx, x, r)
	}
	if err == nil {
		s.plans.keep(text, r, p, want)
	}
	return p, err
}

// plansKept is how many plans are kept: of the text that something is dragged
// from, of where it is now and was just before, and of the one the rig runs.
const plansKept = 4

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
	to   depth
}

func (k known) is(under shot.Laid, text string, r rig.Rig) bool {
	return k.text == text && reflect.DeepEqual(k.rig, r) && reflect.DeepEqual(k.laid.Values, under.Values)
}

// of returns the plan of a text on a rig, if one is kept that was looked at so far.
func (x *plans) of(under shot.Laid, text string, r rig.Rig, want depth) (*job.Job, bool) {
	x.mu.Lock()
	defer x.mu.Unlock()
	for i, k := range x.kept {
		if k.to >= want && k.is(under, text, r) {
			copy(x.kept[1:i+1], x.kept[:i])
			x.kept[0] = k
			return k.plan, true
		}
	}
	return nil, false
}

// keep keeps a plan in the place of one that was looked at less, and lets the one go
// that was asked for longest ago.
func (x *plans) keep(text string, r rig.Rig, p *job.Job, to depth) {
	x.mu.Lock()
	defer x.mu.Unlock()
	list := []known{{text, p.Shot.Laid, r, p, to}}
	for _, k := range x.kept {
		if len(list) < plansKept && !(k.to <= to && k.is(p.Shot.Laid, text, r)) {
			list = append(list, k)
		}
	}
	x.kept = list
}

// drop lets all plans go.
func (x *plans) drop() {
	x.mu.Lock()
	defer x.mu.Unlock()
	x.kept = nil
}

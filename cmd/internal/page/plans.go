package page

import (
	"reflect"
	"sync"

	"seamrail/cmd/internal/job"
	"seamrail/motion/spec/rig"
)

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
	rig  rig.Rig
	plan *job.Job
}

// of returns the plan of a text on a rig, if it is kept.
func (x *plans) of(text string, r rig.Rig) (*job.Job, bool) {
	x.mu.Lock()
	defer x.mu.Unlock()
	for i, k := range x.kept {
		if k.text == text && reflect.DeepEqual(k.rig, r) {
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
	x.kept = append([]known{{text, r, p}}, x.kept[:min(len(x.kept), plansKept-1)]...)
}

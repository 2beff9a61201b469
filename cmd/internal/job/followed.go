package job

import (
	"context"
	"math"
	"slices"
	"strings"
	"sync"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/fault"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/controller/ontime"
	"seamrail/motion/plan"
	"seamrail/motion/plan/reach"
	"seamrail/motion/spec/shot"
)

// nearby and shorter are how many times as long a loop is tried that the controller is to
// follow: a little longer is enough where an axis has nothing to spare at its greatest speed,
// much where a board is slow to speed up. What is slower than a board can step takes long to be
// run on the model of it, so that little is tried.
var (
	nearby  = []float64{1.005, 1.03, 0.97, 1.1, 1.25, 0.8, 1.6, 2.5, 5}
	shorter = []float64{0.5, 0.2}
)

// followed are the loops that were found, once somebody has asked for them.
type followed struct {
	mu   sync.Mutex
	done bool
	list fault.Cures
}

// Followed are other lengths of the loop that the controller follows, where it cannot
// follow this one. Each was planned, looked at and run on the model of the controller. It is
// an error where ctx ends before they are found.
func (j *Job) Followed(ctx context.Context) (fault.Cures, error) {
	x := j.Expected()
	if x == nil || x.Follows() {
		return nil, nil
	}
	f := j.loops
	f.mu.Lock()
	defer f.mu.Unlock()
	if !f.done {
		list := j.follow(ctx, j.Shot, *x, func(l clock.Loop) (string, []fault.Edit) {
			_, edits := reach.Slower(j.Shot, l)
			return reach.LoopWords(l), edits
		})
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		f.done, f.list = true, list
	}
	return f.list, nil
}

// FollowedWith tells whether the controller follows the shot with other values, where it
// follows it as it is and they change how it moves or how often; else nothing is known against them.
func (j *Job) FollowedWith(ctx context.Context, edits []fault.Edit) bool {
	moves := func(e fault.Edit) bool {
		table, _, _ := strings.Cut(e.Path, ".")
		return slices.Contains([]string{"clock", "axis", "take"}, table)
	}
	if x := j.Expected(); x == nil || !x.Follows() || !slices.ContainsFunc(edits, moves) {
		return true
	}
	s, err := reach.Changed(j.Shot, edits)
	if err != nil {
		return true
	}
	p, err := plan.Build(s, j.Rig)
	if err != nil || len(p.Breaches()) > 0 {
		return true
	}
	x := run(ctx, p)
	return x == nil || x.Follows()
}

// inLoop is what makes another loop of a shot, in words and as edits.
type inLoop func(clock.Loop) (string, []fault.Edit)

// follow looks for a loop in which the controller follows and nothing fails that does not
// now, the nearest first; else what fails besides is told of the one in which the least does. A
// shorter loop may make nothing fail: what is too quick in it would ask for the longer one again.
// The job is that of a shot, perhaps with some values changed, and this is what the controller
// makes of it.
func (j *Job) follow(ctx context.Context, of shot.Shot, x ontime.Prediction, in inLoop) fault.Cures {
	ways := nearby
	if x.Treads > 0 {
		ways = shorter
	}
	var best fault.Cures
	least := math.MaxInt
	seen := map[int64]bool{}
	for _, times := range ways {
		for _, l := range j.loopsNear(times) {
			if seen[l.Screen] || ctx.Err() != nil {
				continue
			}
			seen[l.Screen] = true
			words, edits := in(l)
			fails, ok := j.driven(ctx, of, edits)
			if !ok || len(fails) >= least || len(fails) > 0 && l.Screen < j.Plan.Loop.Screen {
				continue
			}
			c := fault.Cure{Words: words, Edits: edits}
			if len(fails) > 0 {
				c.Costs = ", but then " + strings.Join(fails, " and ") + " will not do"
			}
			if best, least = (fault.Cures{c}), len(fails); least == 0 {
				return best
			}
		}
	}
	return best
}

// wholeNear is how many timeline frames further on a loop is looked for that has whole
// captured frames: the rates of cameras have one within that.
const wholeNear = 60

// loopsNear are loops about so many times as long: those nearest to it that close on every
// stand, if there are stands and such loops.
func (j *Job) loopsNear(times float64) []clock.Loop {
	first := int64(math.Ceil(float64(j.Plan.Loop.Screen) * times))
	for n := range int64(wholeNear) {
		l, err := j.Plan.Loop.Clock.LoopFrames(max(first, 1) + n)
		switch {
		case err != nil || l.Screen == j.Plan.Loop.Screen:
			continue
		case len(j.Plan.Stands) > 0 && !j.Plan.ClosesAt(l):
			if near := j.Plan.NearestTo(l); len(near) > 0 {
				return near
			}
		}
		return []clock.Loop{l}
	}
	return nil
}

// driven tells whether a shot with other values can be driven and the controller follows it,
// and which checks fail then that do not now.
func (j *Job) driven(ctx context.Context, of shot.Shot, edits []fault.Edit) (fails []string, ok bool) {
	s, err := reach.Changed(of, edits)
	if err != nil {
		return nil, false
	}
	x, err := looked(ctx, s, j.Rig, lensview.Sketch, false)
	if err != nil || x.Beyond() != nil {
		return nil, false
	}
	if p := run(ctx, x.Plan); p != nil && !p.Follows() || ctx.Err() != nil {
		return nil, false
	}
	return slices.DeleteFunc(slices.Clone(x.Glanced.Fails), func(name string) bool { return slices.Contains(j.Glanced.Fails, name) }), true
}

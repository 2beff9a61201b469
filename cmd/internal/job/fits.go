package job

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"seamrail/export/report/spinreport"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/list"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/plan/reach"
	"seamrail/motion/spec/shot"
	"seamrail/motion/turntable/spin"
)

// Fits says in words what would bring the plan inside the limits. Laws that
// would do for an axis share a line.
func (j *Job) Fits() []string {
	out := j.collisionFits()
	if len(j.Plan.Breaches()) > 0 {
		out = append(out, j.limitFits()...)
	}
	return append(out, j.StandCures(context.Background()).Words()...)
}

// collisionFits says what would keep lens and product apart.
func (j *Job) collisionFits() []string {
	var out []string
	for _, v := range lensview.Blocking(j.Picture) {
		for _, c := range v.Cures {
			out = append(out, "would fit: "+c.String())
		}
	}
	return out
}

// LimitFits are what would bring the plan inside the rig's limits, looked for once.
func (j *Job) LimitFits() []reach.Fit { return j.limits() }

// limitFits says them in words.
func (j *Job) limitFits() []string {
	var out, axes []string
	laws := map[string][]string{}
	for _, f := range j.LimitFits() {
		switch {
		case f.Axis == "":
			out = append(out, "would fit: "+f.Text)
		case f.Kind == "law":
			if !slices.Contains(axes, f.Axis) {
				axes = append(axes, f.Axis)
			}
			laws[f.Axis] = append(laws[f.Axis], lawOf(f))
		default:
			out = append(out, "axis "+f.Axis+" would fit with "+f.Text)
		}
	}
	for _, a := range axes {
		out = append(out, "axis "+a+" would fit, at this travel and loop, with law = "+strings.Join(laws[a], " or "))
	}
	if len(out) == 0 {
		out = append(out, "nothing was found that would fit: no longer loop, place, travel or law alone, nor several of these together")
	}
	return out
}

func lawOf(f reach.Fit) string {
	m, _ := f.Shot.Axis(f.Axis)
	return m.Law().Name()
}

// StandCures are which loops would close on the stands of a shot that states a bound and
// breaks it, as far as they are found until ctx ends.
func (j *Job) StandCures(ctx context.Context) fault.Cures {
	if !slices.ContainsFunc(j.Plan.Stands, plan.Stand.Refuses) {
		return nil
	}
	a, err := spin.FindUntil(ctx, j.Plan.SpinQuery())
	if err != nil {
		return fault.Cures{{Words: "no loop was looked for: " + err.Error()}}
	}
	var out fault.Cures
	for _, l := range j.Plan.Nearest() {
		if reach.Closes(withLoop(j.Shot, l), j.Rig) {
			out = append(out, j.closing(fmt.Sprintf("would close: a loop of %d frames (%s s), with nothing else changed", l.Screen, l.OnScreen().Decimal(3)),
				[]fault.Edit{{Path: "clock.loop", Text: move.FramesText(l.Screen)}}))
		}
	}
	for _, l := range a.Loops {
		if l.Certain() && j.closes(l) {
			out = append(out, j.closing("the stand would close best with "+j.loopWords(l), reach.LoopEdits(j.Shot, l)))
			break
		}
	}
	out = append(out, j.offered(a)...)
	for _, s := range j.Plan.Stands {
		if words := spinreport.Keeps(s.Seam, spin.Assume{Capture: j.Plan.Loop.Clock.Capture}); s.Refuses() && words != "" {
			out = append(out, fault.Cure{Words: s.Rig.Name + " is not known to close: " + words})
		}
	}
	return out
}

// offered are what would close where no loop of the range does.
func (j *Job) offered(a spin.Answer) fault.Cures {
	var out fault.Cures
	for _, f := range a.Fits {
		if f.Loop == nil || j.closes(*f.Loop) {
			out = append(out, j.OfferOf(f))
		}
	}
	return out
}

// OfferOf is what a search for loops offers, as a cure.
func (j *Job) OfferOf(f spin.Fit) fault.Cure {
	if f.Loop == nil {
		return fault.Cure{Words: f.Offer()}
	}
	return j.closing(f.Offer(), reach.LoopEdits(j.Shot, *f.Loop))
}

// OpenCures are what would close, where a stand does not come round and no other length of
// the loop alone would help, looked for until ctx ends.
func (j *Job) OpenCures(ctx context.Context) fault.Cures {
	stays := func(s plan.Stand) bool { return !s.Seam.Closes() }
	if !slices.ContainsFunc(j.Plan.Stands, stays) || len(j.Plan.Nearest()) > 0 {
		return nil
	}
	a, err := spin.FindUntil(ctx, j.Plan.SpinQuery())
	if err != nil {
		return nil
	}
	return list.Map(a.Fits, j.OfferOf)
}

// closing is a cure of how a stand comes round. Where its values alone do not make the
// shot close, it is for a hand: another product, say.
func (j *Job) closing(words string, edits []fault.Edit) fault.Cure {
	if !reach.ClosesAs(j.Shot, j.Rig, edits) {
		edits = nil
	}
	return fault.Cure{Words: words, Edits: edits}
}

func withLoop(s shot.Shot, l clock.Loop) shot.Shot {
	s.Loop = l
	return s
}

// closes tells whether the shot in such a loop is within the rig's limits and closes:
// what is offered has been planned.
func (j *Job) closes(l spin.Loop) bool { return reach.Closes(reach.AtLoop(j.Shot, l), j.Rig) }

// loopWords tells the length of a loop and what else of the shot it changes.
func (j *Job) loopWords(l spin.Loop) string {
	words := fmt.Sprintf("a loop of %d frames (%s s)", l.Screen, l.OnScreen().Decimal(3))
	if !l.Clock.Capture.Equal(j.Plan.Loop.Clock.Capture) {
		words += ", captured at " + clock.RateText(l.Clock.Capture)
	}
	for i, s := range l.Seams {
		if s.Speed.Name != j.Plan.Stands[i].Speed.Name {
			words += fmt.Sprintf(", %s at its speed %s", s.Product.Stand.Name, s.Speed.Name)
		}
	}
	return words
}

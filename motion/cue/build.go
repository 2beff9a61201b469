package cue

import (
	"fmt"
	"slices"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/unit"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/spec/shot"
)

// builder works out one cue.
type builder struct {
	plan   *plan.Plan
	shot   shot.Shot
	partly bool // the plan may lack axes of the shot, and has no pace or way back of its own
	cue    Cue
	faults fault.List
}

// timed tells whether the plan says how long loop and round are.
func (b *builder) timed() bool {
	passes := func(m shot.AxisMove) bool {
		_, does := m.Does.(move.Passer)
		return does
	}
	return !b.partly || b.plan.Loop.Captured > 0 && !b.shot.Quickest && !slices.ContainsFunc(b.shot.Axes, passes)
}

func (b *builder) build() {
	c := &b.cue
	c.Lands = c.At
	if c.Dims != nil {
		c.What = c.Dims.Words
	}
	if c.Ring && c.Busy.Sign() > 0 {
		c.What = fmt.Sprintf("there by frame %s, in %s", screen(b.plan.Loop.Clock, c.At.Add(c.Busy)).Decimal(1), seconds(c.Busy))
	}
	if c.Event != "" {
		t, ok := b.atAxis()
		if !ok {
			return
		}
		c.Lands = t
	}
	if !b.timed() {
		return
	}
	c.Lands = c.Lands.Add(c.After)
	c.Screen = screen(b.plan.Loop.Clock, c.Lands)
	b.within()
	b.way()
	b.ahead()
}

// maxAhead is how many rounds before its event a count may begin: far more than
// hands need, and a bound on the work.
const maxAhead = 1000

// ahead checks that the count to it begins no more than so many rounds before.
func (b *builder) ahead() {
	rounds := b.cue.First().Neg().Quo(b.round())
	if len(b.faults) > 0 || rounds.Less(exact.Int(maxAhead)) {
		return
	}
	key := "lead"
	if b.cue.Lead.Sign() == 0 {
		key = "beats"
	}
	b.fault(key, fmt.Sprintf("has the count begin %s rounds before, of %s s each", rounds.Decimal(0), b.round().Decimal(6)),
		fmt.Sprintf("less than %d would do", maxAhead))
}

func (b *builder) fault(key, bound, fit string) {
	b.faults = append(b.faults, b.cue.Fault(b.shot.File, key, bound, fit))
}

// within checks that it shows in the loop.
func (b *builder) within() {
	loop := b.plan.Loop
	if b.cue.Lands.Sign() >= 0 && b.cue.Lands.Less(loop.Real()) {
		return
	}
	key := "at"
	if b.cue.After.Sign() != 0 {
		key = "after"
	}
	b.fault(key, fmt.Sprintf("is outside the loop, at frame %s of the timeline", b.cue.Screen.Decimal(2)),
		fmt.Sprintf("frames 0 to %d are in it", loop.Screen-1))
}

// way works out how long it is from the hand's move to what is seen.
func (b *builder) way() {
	c := &b.cue
	if c.Measured.Sign() > 0 {
		c.Way = c.Measured
		b.notLonger("measured", c.Measured, "")
		return
	}
	c.Falls = falls(c.Fall, c.Flow)
	c.Way = c.Falls.Add(c.Lead)
	highest := Height(b.round().Float(), c.Flow.Float())
	b.notLonger("fall", c.Falls, "a fall of less than "+unit.Format(highest, unit.Length)+" would do")
}

func (b *builder) round() exact.Rat { return b.plan.Round() }

// notLonger checks that something is over within a round: else it would still
// be on its way when the next one is let go.
func (b *builder) notLonger(key string, way exact.Rat, fit string) {
	if way.Less(b.round()) {
		return
	}
	if fit == "" {
		fit = "less than " + b.round().Decimal(3) + " s would do"
	}
	b.fault(key, fmt.Sprintf("takes %s s, and a round only %s s of real time", way.Decimal(3), b.round().Decimal(3)), fit)
}

// axis returns the axis that a cue waits for.
func (b *builder) axis() (*plan.Axis, bool) {
	var fits []*plan.Axis
	for i := range b.plan.Axes {
		a := &b.plan.Axes[i]
		if b.cue.Axis == a.Rig.Name {
			return a, true
		}
		if b.can(a) {
			fits = append(fits, a)
		}
	}
	_, stated := b.shot.Axis(b.cue.Axis)
	switch {
	case b.partly && (stated || b.cue.Axis == ""): // it may be one that is not planned
	case b.cue.Axis != "":
		b.fault("axis", "is none of the shot", "its axes are "+names(b.shot.Axes))
	case len(fits) == 1:
		return fits[0], true
	case len(fits) == 0:
		b.fault("at", "waits for an axis that turns round, and none does", `say when, such as at = "72 frames"`)
	default:
		b.fault("at", "waits for an axis, and several turn round", fmt.Sprintf("add one, such as axis = %q", fits[0].Rig.Name))
	}
	return nil, false
}

// hasEnds tells whether an axis goes between two ends.
func hasEnds(a *plan.Axis) bool {
	_, has := a.Move.Does.(move.Ended)
	return has
}

func names(axes []shot.AxisMove) string {
	text := ""
	for i := range axes {
		if i > 0 {
			text += ", "
		}
		text += axes[i].Name
	}
	return text
}

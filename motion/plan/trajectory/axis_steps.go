package trajectory

import (
	"seamrail/motion/base/exact"
	"seamrail/motion/plan"
	"seamrail/motion/verify/trace"
)

// leg is a run of stages with one origin in time and position: a run-up, a
// round or a run-out.
type leg struct {
	stages []stage
	round  int64
	nanos  origin // of the leg's start, from frame 0
	steps  origin // added to the curve's position in steps
	end    int64  // step index at the leg's end, absolute
	// repeats tells that the leg is a round after the first.
	repeats bool
}

// axisSteps makes the steps of one axis in order. It holds one round's stages
// and nothing that grows with the rounds.
type axisSteps struct {
	axis   int
	scale  float64
	perLeg func(n int64) (leg, bool)
	n      int64 // legs taken
	leg    leg
	next   int // stage within the leg
	solver solver
	dir    int64
	now    int64 // absolute step index
	goal   int64 // index at the end of the current stage
	first  memo  // the steps of round 0, where every round repeats them
}

// advance moves on to the next stage that has steps in it. It returns false
// when the take is over.
func (a *axisSteps) advance() bool {
	for a.now == a.goal {
		if a.next == len(a.leg.stages) {
			l, ok := a.perLeg(a.n)
			if !ok {
				return false
			}
			a.leg, a.next, a.n = l, 0, a.n+1
			if a.first.usable && len(a.first.marks) > 0 && l.repeats {
				// As round 0: the axis comes back to the step it stands on.
				a.next, a.first.next = len(l.stages), 0
				return true
			}
			continue
		}
		a.enter(a.leg.stages[a.next])
		a.next++
	}
	return true
}

func (a *axisSteps) enter(s stage) {
	if a.next == len(a.leg.stages)-1 {
		a.goal = a.leg.end
	} else {
		a.goal = a.stageGoal(s)
	}
	a.dir = int64(s.dir)
	if s.dir == 0 && a.goal != a.now {
		// A stage at rest cannot step. The threshold it sits on is within
		// rounding of its position, and goes to the motion that follows.
		a.goal = a.now
	}
	a.solver = newSolver(s, a.scale, a.leg.steps.rest)
}

// stageGoal returns the index at the end of a stage; it never lies behind the
// index already reached.
func (a *axisSteps) stageGoal(s stage) int64 {
	pos, _, _ := s.curve.At(s.to)
	kind := 0
	if s.last {
		kind = s.dir
	}
	goal := settle(pos*a.scale+a.leg.steps.rest, kind) + a.leg.steps.whole
	if int64(s.dir)*(goal-a.now) < 0 || s.dir == 0 {
		return a.now
	}
	return goal
}

// step writes the next step of this axis to out, or returns false after the
// last. It writes in place because a copy of a Step by way of memory costs a
// quarter of the time it takes to find one.
func (a *axisSteps) step(out *trace.Step) bool {
	if a.first.playing() {
		m := a.first.marks[a.first.next]
		a.first.next++
		a.take(out, m)
		return true
	}
	if a.now == a.goal && !a.advance() {
		return false
	}
	if a.first.playing() {
		return a.step(out)
	}
	if a.dir*(a.goal-a.now) < 0 {
		// Only a leg's end index can lie behind: by one step, within rounding.
		a.dir = -a.dir
	}
	between := min(a.now, a.now+a.dir) - a.leg.steps.whole
	m := mark{a.solver.cross(float64(between) + 0.5), a.dir}
	if a.first.usable && a.leg.round == 0 {
		a.first.note(m)
	}
	a.take(out, m)
	return true
}

// take makes one step and writes it to out.
func (a *axisSteps) take(out *trace.Step, m mark) {
	a.now += m.dir
	out.Axis, out.Dir, out.Position = a.axis, int8(m.dir), a.now
	out.Round, out.Within = a.leg.round, m.at
	out.Nanos = a.leg.nanos.whole + int64(a.leg.nanos.rest+m.at*nanosPerSecond+0.5)
}

// newAxisSteps prepares axis i for a take of opt.Rounds.
func (t *Trajectory) newAxisSteps(i int, opt StepOptions) *axisSteps {
	ax := &t.plan.Axes[i]
	stages := stagesOf(ax.Track)
	a := &axisSteps{axis: i, scale: ax.Rig.StepsPerUnit.Float()}
	gain := t.StepsPerRound(i)
	a.first = newMemo(gain.Sign() == 0 && opt.Rounds > 1)
	index := t.seamIndex(i, stages)
	round := func(n int64) leg {
		o, _ := index(n)
		_, end := index(n + 1)
		begins := t.Period().Mul(exact.Int(n)).Mul(exact.Int(nanosPerSecond))
		return leg{stages: stages, round: n, nanos: originOf(begins), steps: o, end: end, repeats: n > 0}
	}
	up := opt.Ramps && ax.RunUp != nil
	down := opt.Ramps && ax.RunOut != nil
	_, a.now = index(0)
	if up {
		a.now = settle(ax.RunUp.At(0).Pos*a.scale, 0)
	}
	a.goal = a.now
	a.perLeg = func(n int64) (leg, bool) {
		if up {
			n--
		}
		switch {
		case n < 0:
			_, end := index(0)
			begins := ax.RunUp.Exact().Neg().Mul(exact.Int(nanosPerSecond))
			return leg{stages: rampStages(ax.RunUp), round: -1, nanos: originOf(begins), end: end}, true
		case n < opt.Rounds:
			return round(n), true
		case n == opt.Rounds && down:
			return t.runOutLeg(ax, opt.Rounds, gain), true
		}
		return leg{}, false
	}
	return a
}

// seamIndex returns the function that gives the step axis i stands on at the
// start of a round, and the origin of that round's steps.
func (t *Trajectory) seamIndex(i int, stages []stage) func(round int64) (origin, int64) {
	ax := &t.plan.Axes[i]
	scale := ax.Rig.StepsPerUnit.Float()
	gain, turn, start := t.StepsPerRound(i), lastTurn(stages), ax.Track.At(0).Pos*scale
	back := turn.pos*scale - gain.Float()
	return func(round int64) (origin, int64) {
		o := originOf(gain.Mul(exact.Int(round)))
		return o, turn.index(start+o.rest, back+o.rest) + o.whole
	}
}

func (t *Trajectory) runOutLeg(ax *plan.Axis, rounds int64, gain exact.Rat) leg {
	scale := ax.Rig.StepsPerUnit.Float()
	begins := t.Period().Mul(exact.Int(rounds)).Mul(exact.Int(nanosPerSecond))
	// The ramp starts where the last round ends, so only the rounds before
	// that one shift it.
	o := originOf(gain.Mul(exact.Int(rounds - 1)))
	end := settle(ax.RunOut.At(ax.RunOut.Length()).Pos*scale+o.rest, 0) + o.whole
	return leg{stages: rampStages(ax.RunOut), round: rounds, nanos: originOf(begins), steps: o, end: end}
}

func rampStages(r *plan.Ramp) []stage {
	c := rampCurve{r.At}
	cuts := r.Breaks()
	var out []stage
	for i := 1; i < len(cuts); i++ {
		_, vel, _ := c.At((cuts[i-1] + cuts[i]) / 2)
		dir := 1
		if vel < 0 {
			dir = -1
		}
		if i > 1 {
			out[i-2].last = out[i-2].dir != dir
		}
		out = append(out, stage{curve: c, from: cuts[i-1], to: cuts[i], dir: dir})
	}
	return out
}

package verify

import (
	"context"
	"fmt"
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/verify/trace"
)

// manyRounds is how far ahead the closing of the steps is proved.
const manyRounds = 10_000

// indexTolerance is how far, in steps, the carriage may stand from where the
// motion is at the seam: half a step either side, the turnaround allowance of a
// sixty-fourth, and rounding.
const indexTolerance = 0.5 + 1.0/64 + 1e-3

// grain is what the time of a step is written to, in seconds. Two of them are off by
// up to half of it each, so that an interval is by up to all of it; and a step may be
// that early or late, half for its rounding and half for how exactly it was solved.
const grain = 1e-9

// stepWalk follows one axis through a round of steps.
type stepWalk struct {
	index       int64
	last        int64
	seen        bool
	forward     int64
	backward    int64
	closest     float64 // s
	bad         string
	positionOff float64 // steps, worst
	fastest     float64 // steps/s, the peak of the motion
	scale       float64 // steps a unit
	period      float64 // s
}

// stepsKnown tells whether the steps of the axes are known: those of a rig that is set and
// started by hand are nobody's business.
func stepsKnown(m Motion) bool {
	for i := range m.AxisCount() {
		if m.Limits(i).StepsPerUnit.Sign() == 0 {
			return false
		}
	}
	return true
}

func checkSteps(ctx context.Context, m Motion, seen []peaks) ([]AxisSteps, []Finding) {
	if !stepsKnown(m) {
		return nil, nil
	}
	walks := make([]stepWalk, m.AxisCount())
	for i := range walks {
		scale := m.Limits(i).StepsPerUnit.Float()
		walks[i] = stepWalk{index: m.StepIndex(i, 0), closest: math.Inf(1),
			scale: scale, period: m.Period().Float(), fastest: seen[i].speed * scale}
	}
	next := m.StepsAlong(1)
	for s, ok := next(); ok && ctx.Err() == nil; s, ok = next() {
		walks[s.Axis].follow(m, s)
	}
	var all []AxisSteps
	var findings []Finding
	for i, w := range walks {
		count := AxisSteps{Axis: m.Limits(i).Name, Forward: w.forward, Backward: w.backward,
			Gain: m.Advance(i).Mul(m.Limits(i).StepsPerUnit)}
		if !math.IsInf(w.closest, 1) {
			count.Rate = 1 / max(w.closest, grain)
		}
		all = append(all, count)
		findings = append(findings, w.order(m, i), w.closes(m, i, count.Gain), checkRounds(m, i, count.Gain))
		if limit := m.StepRate(); limit > 0 {
			findings = append(findings, w.rate(count, limit))
		}
	}
	return all, findings
}

func (w *stepWalk) follow(m Motion, s trace.Step) {
	if s.Position-w.index != int64(s.Dir) || (s.Dir != 1 && s.Dir != -1) {
		w.bad = fmt.Sprintf("step to %d from %d at %d ns is not one step", s.Position, w.index, s.Nanos)
	}
	if w.seen {
		if s.Nanos < w.last {
			w.bad = fmt.Sprintf("a step at %d ns follows one at %d ns", s.Nanos, w.last)
		}
		w.closest = math.Min(w.closest, float64(s.Nanos-w.last)*1e-9)
	}
	if s.Dir > 0 {
		w.forward++
	} else {
		w.backward++
	}
	sec := math.Min(math.Max(float64(s.Nanos)*1e-9, 0), w.period)
	crossing := float64(s.Position) - float64(s.Dir)/2
	w.positionOff = math.Max(w.positionOff, math.Abs(m.Position(s.Axis, sec)*w.scale-crossing))
	w.index, w.last, w.seen = s.Position, s.Nanos, true
}

// crossingTolerance is how far, in steps, the motion may be from the threshold at the
// written time of a step, beside what it moves in a grain of time: a thousandth, far
// below what any motor shows.
const crossingTolerance = 1e-3

func (w *stepWalk) order(m Motion, i int) Finding {
	f := Finding{Axis: m.Limits(i).Name, Check: "step times", OK: true,
		Text: fmt.Sprintf("%d steps in time order, each within %.1g step of its crossing",
			w.forward+w.backward, math.Max(w.positionOff, 1e-9))}
	if w.positionOff > crossingTolerance+w.fastest*grain {
		f.OK = false
		f.Text = fmt.Sprintf("a step is written %.3g step away from its crossing", w.positionOff)
	}
	if w.bad != "" {
		f.OK, f.Text = false, w.bad
	}
	return f
}

// closes wants the steps of a round to add up to its gain, and the place they
// start from and lead to to be where the motion is.
func (w *stepWalk) closes(m Motion, i int, gain exact.Rat) Finding {
	net := w.forward - w.backward
	f := Finding{Axis: m.Limits(i).Name, Check: "steps close"}
	scale := m.Limits(i).StepsPerUnit.Float()
	start := math.Abs(float64(m.StepIndex(i, 0)) - m.Position(i, 0)*scale)
	if gain.IsInt() {
		f.OK = exact.Int(net).Equal(gain) && start <= indexTolerance
		f.Text = fmt.Sprintf("%d forward, %d back, net %d of exactly %s", w.forward, w.backward, net, gain)
		return f
	}
	off := exact.Int(net).Sub(gain).Abs()
	f.OK = off.Less(exact.Int(1)) && start <= indexTolerance
	f.Text = fmt.Sprintf("net %d in the first round of exactly %s; the remainder is carried", net, gain)
	return f
}

// checkRounds asks where the steps stand after very many rounds.
func checkRounds(m Motion, i int, gain exact.Rat) Finding {
	want := gain.Mul(exact.Int(manyRounds))
	got := exact.Int(m.StepIndex(i, manyRounds) - m.StepIndex(i, 0))
	off := got.Sub(want).Abs()
	f := Finding{Axis: m.Limits(i).Name, Check: "steps hold"}
	f.OK = off.Sign() == 0 || !want.IsInt() && !exact.Int(1).Less(off)
	f.Text = fmt.Sprintf("after %d rounds %s steps off", manyRounds, off.Decimal(3))
	return f
}

// rate holds the closest two steps to the interval of the controller's greatest rate.
func (w *stepWalk) rate(s AxisSteps, limit float64) Finding {
	return Finding{Axis: s.Axis, Check: "step rate", OK: w.closest+grain >= 1/limit,
		Text: fmt.Sprintf("%.0f steps/s of %.0f", s.Rate, limit)}
}

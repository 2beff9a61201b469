package motionplot

import (
	"fmt"
	"math"
	"strings"

	"seamrail/motion/base/clock"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/verify"
	"seamrail/plot/internal/style"
)

// FromPlan returns what a figure of p shows. The limits are the rig's, the curves are
// the plan's, and the verdict is v's.
func FromPlan(p *plan.Plan, v verify.Verdict) Data {
	loop := p.Loop
	d := Data{
		Title: p.Title,
		Subtitle: fmt.Sprintf("%d frames · %s s on screen · %s s at the rig",
			loop.Captured, style.Number(loop.OnScreen().Float()), style.Number(p.Period())),
		Clock: fmt.Sprintf("captured at %s, played at %s",
			clock.RateText(loop.Clock.Capture), clock.RateText(loop.Clock.Playback)),
		Verdict:  words(v),
		Foot:     "Speeds are the rig's own, in real seconds. Plan " + p.Hash(),
		Period:   p.Period(),
		OnScreen: loop.OnScreen().Float(),
		Captured: loop.Captured,
		Stands:   stands(p),
	}
	if p.Back > 0 {
		d.Shown, d.Captured = d.Captured, p.RoundFrames()
		d.OnScreen = p.Period() / loop.Clock.Retime.Float()
		d.Clock += fmt.Sprintf(" · shaded: %d frames on the way back, unseen", p.Back)
	}
	for i, a := range p.Axes {
		d.Axes = append(d.Axes, fromAxis(a, p.Rig.Controller.StepRate))
		for _, s := range v.Seam {
			if s.Axis == a.Rig.Name {
				d.Axes[i].Seam = s.Words
			}
		}
	}
	return d
}

// words says what the verifier found: that all is well, or the first thing
// that is not.
func words(v verify.Verdict) string {
	failed := v.Failed()
	if v.OK || len(failed) == 0 {
		return fmt.Sprintf("Frames, limits, seam and steps: all %d checks hold.", len(v.Findings)) + beside(v)
	}
	first := strings.TrimSpace(failed[0].Axis + " " + failed[0].Check)
	return fmt.Sprintf("REJECTED: %d of %d checks fail; %s: %s", len(failed), len(v.Findings), first, failed[0].Text) + beside(v)
}

// beside says what else fails.
func beside(v verify.Verdict) string {
	if len(v.Fails) == 0 {
		return ""
	}
	return " Will not do: " + strings.Join(v.Fails, ", ") + "."
}

func fromAxis(a plan.Axis, stepRate float64) Axis {
	tr := a.Track
	out := Axis{
		Name: a.Rig.Name, Unit: a.Rig.Unit(), Gain: tr.Advance().Float(), Cut: a.Gain.Float() + a.Cut,
		At:     func(sec float64) State { return State(tr.At(sec)) },
		Before: func(sec float64) State { return State(tr.Before(sec)) },
		Breaks: tr.Breaks(),
		Limits: limits(a.Rig, stepRate),
		Peaks: &Peaks{Speed: Peak(a.Extremes.Speed), Acc: Peak(a.Extremes.Acc),
			Jerk: Peak(a.Extremes.Jerk)},
	}
	for _, w := range tr.Dwells() {
		if w.To-w.From < tr.Period().Float() { // a held axis dwells all the time: nothing to shade
			out.Dwells = append(out.Dwells, [2]float64{w.From, w.To})
		}
	}
	return out
}

func limits(a rig.Axis, stepRate float64) Limits {
	l := Limits{Min: a.Min, Max: a.Max, Speed: a.SpeedCap(stepRate), Acc: a.MaxAcc, Jerk: a.MaxJerk}
	if a.Endless {
		l.Min, l.Max = math.Inf(-1), math.Inf(1)
	}
	return l
}

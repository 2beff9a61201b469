package report

import (
	"fmt"
	"math"
	"strings"

	"seamrail/export/textpage"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/unit"
	"seamrail/motion/plan"
	"seamrail/motion/verify"
)

// valueWidth is the column of values: "4166.67 deg/s2" and a space.
const valueWidth = 17

// shareWidth is the column of shares: "157 % of".
const shareWidth = 8

func (p *page) axis(pl *plan.Plan, a *plan.Axis, v verify.Verdict, i int) {
	p.Section(strings.ToUpper(clean(a.Rig.Name)))
	p.Field("moves", moveWords(a, pl.Loop.Clock))
	if a.Move.Stays() {
		return
	}
	p.Field("reaches", rangeWords(a))
	for _, g := range gauges(pl, a) {
		p.gauge(pl, g)
	}
	if i < len(v.Seam) {
		p.seam(v.Seam[i], a)
	}
	if i < len(v.Steps) {
		p.Field("steps", stepWords(v.Steps[i], held(v, a.Rig.Name)))
	}
	if words := rampWords(pl, a); words != "" {
		p.Field("ramps", words)
	}
	if faces, period, ok := tableStrobe(pl, a); ok {
		words, ink := strobeWords(pl, period, faces)
		p.Inked(ink, "each frame", words)
	}
	if a.Rig.Mechanics != "" {
		p.Field("driven by", clean(a.Rig.Mechanics)+", "+a.Rig.StepsPerUnit.Decimal(secondDigits)+" steps/"+a.Rig.Unit())
	}
}

func rangeWords(a *plan.Axis) string {
	d := positionDim(a)
	words := unit.Format(a.Extremes.Min.Value, d) + " to " + unit.Format(a.Extremes.Max.Value, d)
	if a.Rig.Endless {
		return words + ", on an axis without ends"
	}
	return words + ", of a travel from " + unit.Format(a.Rig.Min, d) + " to " + unit.Format(a.Rig.Max, d)
}

// gauge prints a peak, how much of its limit that is, and where it happens.
// The share and the place follow on a second line: both fit in 80 columns.
func (p *page) gauge(pl *plan.Plan, g gauge) {
	value := unit.Format(g.value(), g.dim)
	if g.limit <= 0 {
		if g.value() > 0 && g.name != plan.StepRate && !math.IsInf(g.value(), 0) {
			p.Field(g.name, textpage.Pad(value, valueWidth)+"no limit stated")
		}
		return
	}
	line := fmt.Sprintf("%s %s %s", p.bar(g.share()), textpage.PadLeft(percent(g.share()), shareWidth), unit.Format(g.limit, g.dim))
	p.Raw(g.name, textpage.Pad(value, valueWidth)+line)
	if g.name == plan.StepRate || g.value() == 0 {
		return
	}
	p.Raw("", p.Paint(dim, textpage.Spaces(valueWidth)+g.when(pl)))
}

func (p *page) seam(s verify.AxisSeam, a *plan.Axis) {
	code := green
	if s.Highest < 2 {
		code = yellow
	}
	if s.Highest < 1 {
		code = red
	}
	p.Inked(code, "seam", s.Words)
	p.Field("jumps", jumpWords(s, a))
}

// jumpWords lists what jumps at the seam, in numbers.
func jumpWords(s verify.AxisSeam, a *plan.Axis) string {
	dims := [4]unit.Dimension{unit.Length, unit.Speed, unit.Acceleration, unit.Jerk}
	if a.Rig.Unit() == "deg" {
		dims = [4]unit.Dimension{unit.Angle, unit.AngularSpeed, unit.AngularAcceleration, unit.AngularJerk}
	}
	names := [4]string{"position", "speed", "acceleration", "jerk"}
	var parts []string
	for i, jump := range []float64{s.Position, s.Velocity, s.Acceleration, s.Jerk} {
		if jump != 0 {
			parts = append(parts, names[i]+" by "+unit.Format(jump, dims[i]))
		}
	}
	if len(parts) == 0 {
		return "none in position, speed, acceleration or jerk"
	}
	return list(parts)
}

// clean keeps text from a file on its line and free of terminal commands.
func clean(s string) string { return plain.Line(s) }

// stepWords counts an axis' steps in a loop, exactly even where the loop gains a part of a step.
func stepWords(s verify.AxisSteps, held string) string {
	words := fmt.Sprintf("%s forward, %d back a loop", counted(s.Forward, "step"), s.Backward)
	switch {
	case s.Gain.Sign() == 0:
		return words + "; it ends on the step it began on"
	case s.Gain.IsInt():
		return words + fmt.Sprintf("; it gains %s exactly", s.Gain)
	}
	return words + fmt.Sprintf("; it gains %s exactly, and carries the part of a step to the next round: %s", mixed(s.Gain), held)
}

// held returns what the verifier found of an axis' steps after very many rounds.
func held(v verify.Verdict, axis string) string {
	for _, f := range v.Findings {
		if f.Axis == axis && f.Check == "steps hold" {
			return f.Text
		}
	}
	return "not checked"
}

// mixed prints a fraction as people read it: "457 1/7", "-3 1/2".
func mixed(r exact.Rat) string {
	whole := r.Abs().Floor()
	part := r.Abs().Sub(whole)
	if part.Sign() == 0 || whole.Sign() == 0 {
		return r.String()
	}
	words := whole.String() + " " + part.String()
	if r.Sign() < 0 {
		return "-" + words
	}
	return words
}

// rampWords says how an axis that moves through the seam gets to its speed and
// back to rest, off camera.
func rampWords(pl *plan.Plan, a *plan.Axis) string {
	if a.RunUp == nil || a.RunOut == nil {
		return ""
	}
	rate := pl.Loop.Clock.Capture
	frames := func(r *plan.Ramp) string {
		return fmt.Sprintf("%s (%s)", counted(r.Exact().Mul(rate).Round().Whole(), "frame"), seconds(r.Exact()))
	}
	return fmt.Sprintf("%s from rest to its speed, before frame 0; %s to rest, after the last round", frames(a.RunUp), frames(a.RunOut))
}

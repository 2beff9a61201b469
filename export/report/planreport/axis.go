package planreport

import (
	"fmt"
	"strings"

	"seamrail/export/report"
	"seamrail/export/report/spinreport"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/unit"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/turntable/spin"
	"seamrail/motion/verify"
)

func (p *page) axis(a *plan.Axis, i int) {
	pl, v := p.pl, p.d.Verified
	p.Member(a.Rig.Name, "axes", strings.ToUpper(a.Rig.Name))
	p.Field("moves", moveWords(pl, a))
	if a.Move.Stays() {
		return
	}
	p.Field("reaches", rangeWords(a))
	for _, g := range gauges(pl, a) {
		p.gauge(g)
	}
	if i < len(v.Seam) {
		s := v.Seam[i]
		p.Toned(seamTone(s), "seam", s.Words)
		p.Field("jumps", jumpWords(s, a))
	}
	if i < len(v.Steps) {
		p.Field("steps", stepWords(v.Steps[i], held(v, a.Rig.Name)))
	}
	p.Field("ramps", rampWords(pl, a))
	if faces, period, ok := tableStrobe(pl, a); ok {
		p.strobe(period, faces)
	}
	if a.Rig.Mechanics != "" {
		p.Field("driven by", a.Rig.Mechanics+", "+a.Rig.StepsPerUnit.Decimal(3)+" steps/"+a.Rig.Unit())
	}
}

func seamTone(s verify.AxisSeam) report.Tone {
	switch {
	case s.Highest < 1:
		return report.Poor
	case s.Highest < 2:
		return report.Fair
	}
	return report.Good
}

// moveWords tells what an axis does during the loop.
func moveWords(p *plan.Plan, a *plan.Axis) string {
	words := a.Move.Does.Words(p.Loop.Clock)
	if a.Move.Shaped != 0 {
		words += "; shaped (" + a.Move.Shaped.String() + ") to leave no after-shake"
	}
	return words
}

func rangeWords(a *plan.Axis) string {
	d := dimensions(a.Rig.Unit())[0]
	words := unit.Format(a.Extremes.Min.Value, d) + " to " + unit.Format(a.Extremes.Max.Value, d)
	if a.Rig.Endless {
		return words + ", on an axis without ends"
	}
	return words + ", of a travel from " + unit.Format(a.Rig.Min, d) + " to " + unit.Format(a.Rig.Max, d)
}

// jumpWords lists what jumps at the seam, in numbers.
func jumpWords(s verify.AxisSeam, a *plan.Axis) string {
	dims, names := dimensions(a.Rig.Unit()), [4]string{"position", "speed", "acceleration", "jerk"}
	var parts []string
	for i, jump := range []float64{s.Position, s.Velocity, s.Acceleration, s.Jerk} {
		if jump != 0 {
			parts = append(parts, names[i]+" by "+unit.Format(jump, dims[i]))
		}
	}
	if len(parts) == 0 {
		return "none in position, speed, acceleration or jerk"
	}
	return strings.Join(parts, ", ")
}

// stepWords counts an axis' steps in a loop, exactly even where the loop gains a part of a step.
func stepWords(s verify.AxisSteps, held string) string {
	words := fmt.Sprintf("%s forward, %d back a loop", plain.Count(s.Forward, "step"), s.Backward)
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
		return fmt.Sprintf("%s (%s)", plain.Count(r.Exact().Mul(rate).Round().Whole(), "frame"), seconds(r.Exact()))
	}
	return fmt.Sprintf("%s from rest to its speed, before frame 0; %s to rest, after the last round", frames(a.RunUp), frames(a.RunOut))
}

// tableStrobe returns what turns at a constant rate under a product of stated
// symmetry, with the time of a turn, and false for any other axis.
func tableStrobe(pl *plan.Plan, a *plan.Axis) (faces int64, period exact.Rat, ok bool) {
	m, turns := a.Move.Does.(move.Turner)
	if !turns || m.Faces() == 0 || !m.Steady() {
		return 0, exact.Rat{}, false
	}
	return m.Faces(), pl.Loop.Real().Quo(m.Turned().Abs()), true
}

// strobe tells how a product of k faces seems to turn from one picture to the next.
func (p *page) strobe(period exact.Rat, k int64) {
	words, natural := spinreport.Strobe(spin.StrobeOf(period, p.pl.Loop.Clock.Pictures(), k), k)
	tone := report.Fair
	if natural {
		tone = report.Plain
	}
	p.Toned(tone, "each frame", words)
}

// Axis is what one axis does and how near its limits it comes.
type Axis struct {
	Name         string     `json:"name"`
	Kind         string     `json:"kind"`
	Unit         string     `json:"unit"`
	Move         string     `json:"move"`
	Words        string     `json:"words"`
	Min          float64    `json:"min"`
	Max          float64    `json:"max"`
	Peaks        []Gauge    `json:"peaks"`
	StepsPerUnit *exact.Rat `json:"steps_per_unit,omitempty"` // of a rig that is driven
	Steps        *Steps     `json:"steps,omitempty"`
	Seam         *Seam      `json:"seam,omitempty"`
	Strobe       *Strobe    `json:"strobe,omitempty"` // of a product of stated symmetry
	RunUp        *float64   `json:"run_up_seconds,omitempty"`
	RunOut       *float64   `json:"run_out_seconds,omitempty"`
}

// Steps counts what an axis steps in one round.
type Steps struct {
	Forward  int64     `json:"forward"`
	Backward int64     `json:"backward"`
	Gain     exact.Rat `json:"gain"`
}

// Seam is the jump of each derivative where the loop meets itself.
type Seam struct {
	Position     float64 `json:"position"`
	Velocity     float64 `json:"velocity"`
	Acceleration float64 `json:"acceleration"`
	Jerk         float64 `json:"jerk"`
	Highest      int     `json:"highest_continuous"` // -1 none, 0 position .. 3 jerk
	Cut          float64 `json:"cut_back,omitempty"` // taken back by the cut, beside which position is counted
	Words        string  `json:"words"`
}

func (d Data) axis(i int) Axis {
	p, v, a := d.Plan, d.Verified, &d.Plan.Axes[i]
	out := Axis{
		Name: a.Rig.Name, Kind: a.Rig.Kind.String(), Unit: a.Rig.Unit(), Move: a.Move.Kind(), Words: moveWords(p, a),
		Min: peaks.Of(a.Extremes.Min.Value), Max: peaks.Of(a.Extremes.Max.Value),
		Peaks: report.Each(gauges(p, a), func(g gauge) Gauge { return gaugeOf(p, g) }),
	}
	if a.Rig.StepsPerUnit.Sign() > 0 {
		out.StepsPerUnit = &a.Rig.StepsPerUnit
	}
	if i < len(v.Steps) {
		s := v.Steps[i]
		out.Steps = &Steps{s.Forward, s.Backward, s.Gain}
	}
	if faces, period, ok := tableStrobe(p, a); ok {
		strobe := strobeOf(p, period, faces)
		out.Strobe = &strobe
	}
	if a.RunUp != nil {
		out.RunUp = peaks.OrNull(a.RunUp.Length())
	}
	if a.RunOut != nil {
		out.RunOut = peaks.OrNull(a.RunOut.Length())
	}
	if i < len(v.Seam) {
		s, at := v.Seam[i], jumps.Of
		out.Seam = &Seam{at(s.Position), at(s.Velocity), at(s.Acceleration), at(s.Jerk), s.Highest, at(s.Cut), s.Words}
	}
	return out
}

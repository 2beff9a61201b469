package footagereport

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"seamrail/export/report"
	"seamrail/motion/footage/against"
)

// plan tells what the take is beside its plan.
func (d Data) plan(r *report.Report) {
	p := d.Plan
	r.Named("plan", "BESIDE THE PLAN")
	if d.blind() { // what the few frames that are known say of the rest is chance
		r.Bullets(report.Fair, "?", d.blindWords())
		return
	}
	d.place(r)
	r.Field("differs", fmt.Sprintf("%s px root mean square of what is left, %s px at the most, at frame %d; up to %s px for a quarter of a second is the plan",
		report.Digits(p.Left.RMS, 2), report.Digits(p.Left.Worst, 2), d.at(p.Left.Frame), report.Digits(p.Verdict.Bound, 2)))
	for _, c := range p.Verdict.Causes {
		r.Bullets(report.Poor, "-", c.Text)
	}
	if len(p.Verdict.Causes) > 0 {
		r.Bullets(report.Dim, " ", "Which of them did it is a model: the one that leaves least unexplained, each paying for what it lets free.")
	}
	r.Bullets(report.Fair, "?", p.Verdict.Why...)
	r.Bullets(report.Dim, "·", p.Verdict.Unproven...)
	d.rounds(r)
	d.axes(r)
	d.rest(r)
}

func (d Data) place(r *report.Report) {
	list := places(d.Plan.Frame0)
	if len(list) == 0 {
		r.Field("frame 0", "not known: "+orNothing(d.Plan.Verdict.Why))
	}
	for n, p := range list {
		label, or := "frame 0", "in the recording"
		if n > 0 {
			label, or = "", "as well"
		}
		r.Field(label, number(d.frame(p), or))
	}
	const mostUnsure = 1e-3 // of a clock nobody doubts a thousandth
	if s := d.Plan.Rate.Sure; s > 0 && s < mostUnsure {
		r.Field("clock", number(against.Number{Value: d.Plan.Rate.Value * 1e6, Sure: s * 1e6}, "millionths slower than the plan's"))
	}
}

// blind tells that of more than half of the frames nobody knows how they lie.
func (d Data) blind() bool { return 2*d.Plan.Compared.Unknown > len(d.Course.Frames) }

func (d Data) blindWords() string {
	return fmt.Sprintf("of %d of %d frames nobody knows how they lie on the first: what turns fills the picture, or there is too little in it to hold on to", d.Plan.Compared.Unknown, len(d.Course.Frames))
}

// places are where frame 0 may be, those that were recorded first.
func places(f against.Frame0) []against.Number {
	list := slices.Clone(f.Others)
	if !math.IsInf(f.Sure, 0) && !math.IsNaN(f.Value) && (f.Known || f.Sure > 0) {
		list = append(list, f.Number)
	}
	list = slices.DeleteFunc(list, func(n against.Number) bool { return math.IsInf(n.Sure, 0) || math.IsNaN(n.Value) })
	const recorded = -0.5 // of frame 0 half was
	slices.SortFunc(list, func(a, b against.Number) int {
		return cmp.Or(-compareBool(a.Value >= recorded, b.Value >= recorded), cmp.Compare(math.Abs(a.Value), math.Abs(b.Value)))
	})
	return slices.CompactFunc(list, func(a, b against.Number) bool { return math.Abs(a.Value-b.Value) < 0.5 })
}

func orNothing(list []string) string {
	if len(list) == 0 {
		return "nothing in it tells"
	}
	return list[0]
}

func (d Data) frame(n against.Number) against.Number {
	return against.Number{Value: n.Value + float64(d.First), Sure: n.Sure}
}

func (d Data) rounds(r *report.Report) {
	if len(d.Plan.Rounds) == 0 {
		return
	}
	r.Named("rounds", "ROUND BY ROUND")
	t := report.Table{Columns: []report.Column{{Head: "round", Right: true}, {Head: "late, frames", Right: true}, {Head: "late, ms", Right: true}, {Head: "longer, frames", Right: true}}}
	for _, round := range d.Plan.Rounds {
		cells := []string{fmt.Sprint(round.Index + 1), "not known", "", ""}
		if round.Known {
			cells = []string{fmt.Sprint(round.Index + 1), number(round.Late, ""), number(round.MS, ""), number(round.Longer, "")}
		}
		t.Rows = append(t.Rows, report.Row{Cells: cells})
	}
	r.Add(t)
}

func (d Data) axes(r *report.Report) {
	for n, a := range d.Plan.Axes {
		unit := d.Units[n]
		r.Member(a.Name, "axes", a.Name)
		if !a.Told {
			r.Field("shows", "nothing that could be told from the other axes")
			continue
		}
		r.Field("shows", number(a.PxPerUnit, "px a "+unit))
		r.Field("play", number(a.Backlash, unit)+", "+number(a.BacklashPx, "px"))
		for _, l := range a.Lost {
			r.Toned(report.Poor, "lost steps", fmt.Sprintf("%s from frame %s on", number(l.Units, unit), report.Digits(l.Frame+float64(d.First), 6)))
		}
	}
}

// rest is what is left over once the plan is laid on: swings, blows, drift.
func (d Data) rest(r *report.Report) {
	p := d.Plan
	r.Named("shake", "WHAT MOVED BESIDES")
	if s := p.Shake; s != nil {
		r.Field("after-shake", fmt.Sprintf("%s, %s Hz, damping %s %%", number(s.Amplitude, "px"), report.Digits(s.Spring.Frequency, 4), report.Digits(100*s.Spring.Damping, 3)))
		d.keepShake(r)
	}
	for _, b := range p.Blows {
		r.Toned(report.Fair, "a blow", fmt.Sprintf("at frame %s: %s px, still after %s s", report.Digits(b.Frame+float64(d.First), 6), report.Digits(b.Px, 2), report.Digits(b.Still, 2)))
	}
	r.Field("drift", number(p.Drift.X, "px a minute to the right")+", "+number(p.Drift.Y, "down"))
}

// keepShake tells what a rig file keeps of the swing: a picture does not say what swings, so that
// it is put down to an axis.
func (d Data) keepShake(r *report.Report) {
	axis := d.shaking()
	if axis == "" {
		return
	}
	lines, err := d.Plan.Shake.Lines(axis)
	if err != nil {
		r.Bullets(report.Dim, " ", "Not for the rig file: "+err.Error()+".")
		return
	}
	for n, line := range lines {
		label := ""
		if n == 0 {
			label = "rig file"
		}
		r.Field(label, line)
	}
	if len(d.Plan.Axes) > 1 {
		r.Bullets(report.Dim, " ", "Which axis shakes, a picture does not tell: have it under the one that had stopped.")
	}
}

// shaking is the axis under which a swing is kept: the one along which it is, or the first that moved
// the picture; "" where none did.
func (d Data) shaking() string {
	if at := d.Plan.Shake.Axis; at >= 0 && at < len(d.Plan.Axes) && d.Plan.Axes[at].Told {
		return d.Plan.Axes[at].Name
	}
	for _, a := range d.Plan.Axes {
		if a.Told {
			return a.Name
		}
	}
	return ""
}

// shakeLines are the lines of the rig file; none where it cannot be kept.
func (d Data) shakeLines() []string {
	axis := d.shaking()
	if axis == "" {
		return nil
	}
	lines, _ := d.Plan.Shake.Lines(axis) // why not, the report says
	return lines
}

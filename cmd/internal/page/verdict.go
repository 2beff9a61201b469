package page

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"seamrail/cmd/internal/job"
	"seamrail/export/header"
	"seamrail/motion/base/fault"
	"seamrail/motion/camera/picture"
	"seamrail/motion/controller/ontime"
	"seamrail/motion/plan"
	"seamrail/motion/plan/judge"
	"seamrail/motion/plan/reach"
	"seamrail/motion/verify"
)

// level is that of a verdict.
type level string

const (
	good    level = "good"
	fair    level = "fair"
	bad     level = "bad"
	unknown level = "unknown"
)

// Verdict is the answer to one question about the loop.
type Verdict struct {
	Level   level    `json:"level"`
	Name    string   `json:"name"`
	Plain   string   `json:"plain"` // its name in plain words
	Text    string   `json:"text"`
	Axis    string   `json:"axis,omitempty"`
	Frame   *float64 `json:"frame,omitempty"`   // captured, where it has an instant
	Pending bool     `json:"pending,omitempty"` // it is being looked at
	Fits    []Fit    `json:"fits"`

	bars bool // it keeps the rig from being driven
}

// Fit is what would do instead. Without edits it is for a hand.
type Fit struct {
	Text  string `json:"text"`
	Edits []Set  `json:"edits"`
	Hand  bool   `json:"hand,omitempty"` // it is a cure, and for a hand
}

// verdicts are all there are of a plan, the worst first, with what the headline says of it
// and none of them tells.
func verdicts(ctx context.Context, p *job.Job, h judge.Headline, quick bool) []Verdict {
	return ranked(slices.Concat(breaches(p, quick), checks(p), others(ctx, p, quick), pictured(p)), h)
}

// ranked puts verdicts the worst first, each under its plain name.
func ranked(list []Verdict, h judge.Headline) []Verdict {
	list = append(list, untold(list, h)...)
	for i := range list {
		list[i].Plain = plainName(list[i].Name, list[i].Axis)
	}
	slices.SortStableFunc(list, func(a, b Verdict) int { return rank(a) - rank(b) })
	return list
}

// untold are what the headline says is not known, and no verdict does.
func untold(list []Verdict, h judge.Headline) []Verdict {
	var out []Verdict
	for _, what := range h.Unknown {
		if !slices.ContainsFunc(list, func(v Verdict) bool { return v.Level == unknown && v.Name == what }) {
			out = append(out, Verdict{Level: unknown, Name: what, Text: "not known", Fits: []Fit{}})
		}
	}
	if h.Pending {
		out = append(out, Verdict{Level: unknown, Name: onRig, Text: "whether it follows is being worked out", Pending: true, Fits: []Fit{}})
	}
	return out
}

// onRig is the name of what the controller makes of the plan.
const onRig = "controller"

// rank is the place of a verdict in a list: what must not be driven before what does not
// look right, and so on.
func rank(v Verdict) int {
	if v.bars {
		return -1
	}
	return slices.Index(worstFirst, v.Level)
}

// worstFirst are the levels.
var worstFirst = []level{bad, fair, unknown, good}

// breaches are the limits of the rig that are broken, each with what would fit. None of that
// raises a limit in the rig's file: it was measured, and is not what a plan would like.
func breaches(p *job.Job, quick bool) []Verdict {
	whole := p.Plan
	broken := whole.Breaches()
	if len(broken) == 0 {
		return []Verdict{{Level: good, Name: "limits", Text: "every axis keeps its travel, speed, acceleration and jerk", Fits: []Fit{}}}
	}
	var fits []reach.Fit
	if !quick {
		fits = p.LimitFits()
	}
	var out []Verdict
	for _, b := range broken {
		f := whole.Fault(b)
		v := Verdict{Level: bad, bars: true, Name: b.Quantity, Axis: b.Axis, Text: words(f.Value, f.Bound, f.Where), Fits: []Fit{}}
		if !math.IsNaN(b.Frame) && !math.IsInf(b.Frame, 0) {
			v.Frame = &b.Frame
		}
		for _, x := range fits {
			if x.Axis == "" || x.Axis == b.Axis {
				v.Fits = append(v.Fits, fitOf(x.Cure()))
			}
		}
		out = append(out, v)
	}
	return out
}

// fitOf is a cure as the page has it.
func fitOf(c fault.Cure) Fit { return Fit{c.String(), setsOf(c.Edits), c.ByHand()} }

func setsOf(edits []fault.Edit) []Set {
	return listOf(edits, func(e fault.Edit) Set { return Set{e.Path, e.Text} })
}

// add adds cures, but for those that make what another one there makes.
func (v *Verdict) add(cures fault.Cures) {
	for _, c := range cures {
		f := fitOf(c)
		same := func(g Fit) bool {
			return g.Text == f.Text || len(f.Edits) > 0 && slices.Equal(g.Edits, f.Edits)
		}
		if !slices.ContainsFunc(v.Fits, same) {
			v.Fits = append(v.Fits, f)
		}
	}
}

// checks are those of the second opinion on the trajectory, less what limits
// and picture tell.
func checks(p *job.Job) []Verdict {
	var out []Verdict
	passed := 0
	for _, f := range p.Verdict.Findings {
		switch {
		case f.OK:
			passed++
			continue
		case told(p, f):
			continue
		}
		v := Verdict{Level: bad, bars: true, Name: f.Check, Axis: f.Axis, Text: f.Text, Fits: []Fit{}}
		if p.Schedule != nil {
			v.add(p.Schedule.Cures(f))
		}
		out = append(out, v)
	}
	if len(out) > 0 {
		return out
	}
	text := fmt.Sprintf("every axis comes round; %d checks of its frames and steps found nothing", passed)
	return []Verdict{{Level: good, Name: "seam", Text: text, Fits: []Fit{}}}
}

// told tells whether a finding is told as a broken limit or of the picture.
func told(p *job.Job, f verify.Finding) bool {
	if p.Picture != nil {
		if _, ok := p.Picture.Find(f.Check); ok {
			return true
		}
	}
	if slices.ContainsFunc(p.Plan.Stands, func(s plan.Stand) bool { return s.Rig.Name == f.Axis && s.Refuses() }) {
		return true // by how it closes
	}
	return slices.ContainsFunc(p.Plan.Breaches(), func(b plan.Breach) bool {
		return b.Axis == f.Axis && (strings.HasPrefix(f.Check, b.Quantity) || b.Quantity == plan.Position && strings.HasPrefix(f.Check, "travel"))
	})
}

// others are the verdicts that are neither of limits nor of the picture, with what the
// report says elsewhere would close on a stand, and be enough for a motor.
func others(ctx context.Context, p *job.Job, quick bool) []Verdict {
	out := listOf(p.Others, verdictOf)
	for i := range out {
		v := &out[i]
		if v.Name == judge.Torque {
			v.bars = v.Level == bad
			v.unless(quick, p.MotorCures)
		}
		for _, s := range p.Plan.Stands {
			if v.Name == judge.ClosingOf+s.Rig.Name {
				v.bars = s.Refuses()
				v.unless(quick || !s.Refuses(), func() fault.Cures { return p.StandCures(ctx) })
				v.unless(quick || s.Seam.Closes(), func() fault.Cures { return p.OpenCures(ctx) })
			}
		}
	}
	return out
}

// unless adds cures that take a search, where that is wanted.
func (v *Verdict) unless(not bool, cures func() fault.Cures) {
	if !not {
		v.add(cures())
	}
}

// pictured are the verdicts on the picture.
func pictured(p *job.Job) []Verdict {
	if p.Picture == nil {
		return nil
	}
	return listOf(p.Picture.Verdicts, verdictOf)
}

var levels = map[picture.Level]level{picture.Good: good, picture.Fair: fair, picture.Poor: bad, picture.Block: bad, picture.Unknown: unknown}

// verdictOf is a verdict as the page has it.
func verdictOf(x picture.Verdict) Verdict {
	v := Verdict{Level: levels[x.Level], bars: x.Level == picture.Block, Name: x.Check, Text: x.Text, Fits: []Fit{}}
	if x.When != nil {
		f := float64(x.When.Frame)
		v.Frame = &f
	}
	v.add(x.Cures)
	for _, c := range x.Advice {
		v.Fits = append(v.Fits, Fit{Text: "not tried: " + c, Edits: []Set{}})
	}
	return v
}

// Follows is what the rig's controller makes of a plan. Finding it takes longer
// than drawing, so it is asked for by itself, once nothing is being changed.
type Follows struct {
	Verdicts []Verdict `json:"verdicts"` // in place of those that were pending; none where the plan must not be run anyway
	Headline Headline  `json:"headline"` // of these and of all others
}

type controllerQuestion struct {
	Text string `json:"text"`
}

func (s *desk) controller(ctx context.Context, q controllerQuestion) (*Follows, error) {
	p, err := s.foretold(ctx, q.Text)
	if err != nil {
		return nil, err
	}
	loops, err := p.Followed(ctx)
	if err != nil {
		return nil, err
	}
	h := p.Headline()
	out := followed(h, verdicts(ctx, p, h, false), p.Expected(), loops, follows(ctx, p))
	return &out, nil
}

// followed is the headline of a plan with what is expected of the controller, nil for
// nothing, the loops that it follows, and what it follows still.
func followed(h judge.Headline, rest []Verdict, x *ontime.Prediction, loops fault.Cures, kept func(Fit) bool) Follows {
	out := Follows{Verdicts: []Verdict{}}
	if x != nil {
		out.Verdicts = ranked(onController(*x, loops), judge.Headline{})
	}
	out.Headline = headlineBy(h, ranked(slices.Concat(out.Verdicts, rest), h), kept)
	return out
}

// onController are the verdicts on the controller: what is expected of it or why
// it cannot follow, each with the loops that it follows, and what was taken for granted of it.
func onController(x ontime.Prediction, loops fault.Cures) []Verdict {
	var out []Verdict
	if x.Follows() {
		out = append(out, Verdict{Level: good, Name: onRig, Text: strings.Join(header.Expected(x), "; "), Fits: []Fit{}})
	}
	for _, f := range x.Faults {
		v := Verdict{Level: bad, bars: true, Name: onRig, Axis: f.Axis, Text: words(f.Quantity, f.Value, f.Bound, f.Where), Fits: []Fit{}}
		if f.Fit != "" {
			v.Fits = append(v.Fits, Fit{f.Fit, setsOf(f.Edits), len(f.Edits) == 0})
		}
		v.add(loops)
		out = append(out, v)
	}
	for _, a := range x.Assumed {
		out = append(out, Verdict{Level: unknown, Name: a.Key, Text: "assumed " + a.Value + "; " + a.Cost, Fits: []Fit{}})
	}
	return out
}

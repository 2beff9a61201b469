package page

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"seamrail/cmd/internal/job"
	"seamrail/motion/camera/picture"
	"seamrail/motion/plan"
	"seamrail/motion/plan/judge"
	"seamrail/motion/plan/reach"
	"seamrail/motion/verify"
)

// The levels of a verdict.
const (
	good    = "good"
	fair    = "fair"
	bad     = "bad"
	unknown = "unknown"
)

// Verdict is the answer to one question about the loop.
type Verdict struct {
	Level string   `json:"level"`
	Name  string   `json:"name"`
	Text  string   `json:"text"`
	Axis  string   `json:"axis,omitempty"`
	Frame *float64 `json:"frame,omitempty"` // captured, where it has an instant
	Fits  []Fit    `json:"fits"`
}

// Fit is what would do instead. Without edits it is for a hand.
type Fit struct {
	Text  string `json:"text"`
	Edits []Set  `json:"edits"`
}

// verdicts are all there are, the worst first within rig and picture.
func verdicts(p *job.Job, quick bool) []Verdict {
	out := append(breaches(p, quick), checks(p)...)
	seen := append(others(p, quick), pictured(p)...)
	slices.SortStableFunc(seen, func(a, b Verdict) int { return rank(a) - rank(b) })
	return append(out, seen...)
}

func rank(v Verdict) int { return slices.Index([]string{bad, fair, good, unknown}, v.Level) }

// breaches are the limits of the rig that are broken, each with what would fit.
func breaches(p *job.Job, quick bool) []Verdict {
	whole := p.Plan
	broken := whole.Breaches()
	if len(broken) == 0 {
		return []Verdict{{Level: good, Name: "limits", Text: "every axis keeps its travel, speed, acceleration and jerk", Fits: []Fit{}}}
	}
	var fits []reach.Fit
	if !quick {
		fits = reach.Fits(p.Shot, p.Rig)
	}
	var out []Verdict
	for _, b := range broken {
		f := whole.Fault(b)
		v := Verdict{Level: bad, Name: b.Quantity, Axis: b.Axis, Text: strings.Join(words(f.Value, f.Bound, f.Where), " "), Fits: []Fit{}}
		if !math.IsNaN(b.Frame) && !math.IsInf(b.Frame, 0) {
			v.Frame = &b.Frame
		}
		for _, x := range fits {
			if x.Axis == "" || x.Axis == b.Axis {
				v.Fits = append(v.Fits, fitOf(x))
			}
		}
		out = append(out, v)
	}
	return out
}

// fitOf is a fit with the values that make it.
func fitOf(f reach.Fit) Fit {
	out := Fit{Text: f.Text, Edits: []Set{}}
	for _, e := range f.Edits {
		out.Edits = append(out.Edits, Set{e.Path, e.Text})
	}
	return out
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
		out = append(out, Verdict{Level: bad, Name: f.Check, Axis: f.Axis, Text: f.Text, Fits: []Fit{}})
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
	return slices.ContainsFunc(p.Plan.Breaches(), func(b plan.Breach) bool {
		return b.Axis == f.Axis && strings.HasPrefix(f.Check, b.Quantity)
	})
}

// others are the verdicts that are neither of limits nor of the picture, with what
// would close on a stand that breaks its bound.
func others(p *job.Job, quick bool) []Verdict {
	var out []Verdict
	for _, x := range p.Others {
		out = append(out, verdictOf(x))
	}
	if quick {
		return out
	}
	for _, s := range p.Plan.Stands {
		k := slices.IndexFunc(out, func(v Verdict) bool { return v.Name == judge.ClosingOf+s.Rig.Name })
		if !s.Refuses() || k < 0 {
			continue
		}
		for _, text := range p.StandFits() {
			out[k].Fits = append(out[k].Fits, Fit{text, []Set{}})
		}
	}
	return out
}

// pictured are the verdicts on the picture.
func pictured(p *job.Job) []Verdict {
	if p.Picture == nil {
		return nil
	}
	var out []Verdict
	for _, x := range p.Picture.Verdicts {
		out = append(out, verdictOf(x))
	}
	return out
}

var levels = map[picture.Level]string{picture.Good: good, picture.Fair: fair, picture.Poor: bad, picture.Block: bad, picture.Unknown: unknown}

// verdictOf is a verdict as the page has it.
func verdictOf(x picture.Verdict) Verdict {
	v := Verdict{Level: levels[x.Level], Name: x.Check, Text: x.Text, Fits: []Fit{}}
	if x.When != nil {
		f := float64(x.When.Frame)
		v.Frame = &f
	}
	for _, c := range x.Cures {
		v.Fits = append(v.Fits, Fit{c, []Set{}})
	}
	for _, c := range x.Advice {
		v.Fits = append(v.Fits, Fit{"not tried: " + c, []Set{}})
	}
	return v
}

package page

import (
	"context"
	"slices"

	"seamrail/cmd/internal/job"
	"seamrail/motion/base/fault"
	"seamrail/motion/plan/judge"
)

// Headline is what is said first, and at which level: that of the worst verdict in the
// list, which is told with what would do.
type Headline struct {
	Level level  `json:"level"`
	Ready bool   `json:"ready"` // nothing keeps the rig from being driven
	Stamp string `json:"stamp"`
	Words string `json:"words"`
	Worst *Worst `json:"worst"` // null where nothing is wrong
}

// Worst is the worst verdict of a list.
type Worst struct {
	Name  string   `json:"name"`
	Plain string   `json:"plain"`
	Axis  string   `json:"axis,omitempty"`
	Text  string   `json:"text"`
	Frame *float64 `json:"frame,omitempty"`
	Fit   *Fit     `json:"fit"` // its first that can be made here, or the first for a hand; null where none was found
}

// headlineOf is the headline of a plan and its verdicts, the worst first. Of several that are
// as bad as each other the first is told that can be mended here.
func headlineOf(h judge.Headline, list []Verdict) Headline {
	return headlineBy(h, list, func(Fit) bool { return true })
}

// headlineBy is headlineOf that offers only what is kept.
func headlineBy(h judge.Headline, list []Verdict, kept func(Fit) bool) Headline {
	worst := list[0]
	out := Headline{Level: worst.Level, Ready: h.Ready(), Stamp: h.Stamp, Words: h.Words}
	if worst.Level != bad && worst.Level != fair {
		return out
	}
	mended := func(v Verdict) bool { return rank(v) == rank(list[0]) && v.made(kept) != nil }
	if i := slices.IndexFunc(list, mended); i > 0 {
		worst = list[i]
	}
	out.Worst = &Worst{Name: worst.Name, Plain: worst.Plain, Axis: worst.Axis, Text: worst.Text, Frame: worst.Frame, Fit: worst.made(kept)}
	if out.Worst.Fit == nil && len(worst.Fits) > 0 {
		out.Worst.Fit = &worst.Fits[0]
		if len(worst.Fits[0].Edits) > 0 {
			out.Worst.Fit = &Fit{Text: worst.Fits[0].Text + unfollowed, Edits: []Set{}, Hand: true}
		}
	}
	return out
}

// unfollowed is what is said of a cure that the headline does not offer.
const unfollowed = ", which the controller does not follow"

// follows tells of cures whether the controller, which follows the plan, still does after them:
// what cures the picture knows nothing of controllers. Each is run on the model of it once.
func follows(ctx context.Context, p *job.Job) func(Fit) bool {
	known := map[string]bool{}
	return func(f Fit) bool {
		if _, asked := known[f.Text]; !asked {
			known[f.Text] = p.FollowedWith(ctx, listOf(f.Edits, func(x Set) fault.Edit { return fault.Edit{Path: x.Path, Text: x.Value} }))
		}
		return known[f.Text]
	}
}

// made is the first of the fits that can be made here and is kept, nil where none is.
func (v Verdict) made(kept func(Fit) bool) *Fit {
	i := slices.IndexFunc(v.Fits, func(f Fit) bool { return len(f.Edits) > 0 && kept(f) })
	if i < 0 {
		return nil
	}
	return &v.Fits[i]
}

package page

import (
	"slices"

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
	worst := list[0]
	out := Headline{Level: worst.Level, Ready: h.Ready(), Stamp: h.Stamp, Words: h.Words}
	if worst.Level != bad && worst.Level != fair {
		return out
	}
	mended := func(v Verdict) bool { return rank(v) == rank(list[0]) && v.made() != nil }
	if i := slices.IndexFunc(list, mended); i > 0 {
		worst = list[i]
	}
	out.Worst = &Worst{Name: worst.Name, Plain: worst.Plain, Axis: worst.Axis, Text: worst.Text, Frame: worst.Frame, Fit: worst.made()}
	if out.Worst.Fit == nil && len(worst.Fits) > 0 {
		out.Worst.Fit = &worst.Fits[0]
	}
	return out
}

// made is the first of the fits that can be made here, nil where none can.
func (v Verdict) made() *Fit {
	i := slices.IndexFunc(v.Fits, func(f Fit) bool { return len(f.Edits) > 0 })
	if i < 0 {
		return nil
	}
	return &v.Fits[i]
}

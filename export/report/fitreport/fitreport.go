// Package fitreport says which loops keep the picture and the rig's limits.
package fitreport

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"seamrail/export/report"
	"seamrail/export/report/picturereport"
	"seamrail/motion/base/exact"
	"seamrail/motion/camera/picture"
	"seamrail/motion/law"
	"seamrail/motion/plan/loopsearch"
)

// Data is what was asked and what was found.
type Data struct {
	Title    string
	Rig      string
	Question loopsearch.Question // its From and To filled
	Laws     []law.Law           // that were tried
	Answer   loopsearch.Answer
	// Command is what plans a loop that was found, but for its flags.
	Command string
}

// page is a report being made.
type page struct {
	report.Report
	d Data
}

// Report tells it to people.
func (d Data) Report() report.Report {
	p := &page{d: d}
	p.Title, p.Subtitle = d.Title, d.Rig+" · loops that keep the picture and the rig's limits"
	if d.Answer.Quickest != nil && d.Answer.Gentlest != nil {
		p.found("QUICKEST", *d.Answer.Quickest)
		p.found("GENTLEST", *d.Answer.Gentlest)
	}
	p.kept()
	p.checks("WHAT NO PACE CHANGES", d.Answer.Standing)
	p.checks("NOT KNOWN OF ANY PACE", d.Answer.Unknown)
	p.question()
	return p.Report
}

func (p *page) question() {
	p.Section("LOOKED AMONG")
	q := p.d.Question
	seconds := func(frames int64) string { return exact.Int(frames).Quo(q.Shot.Clock.Playback).Decimal(3) + " s" }
	p.Field("loops", fmt.Sprintf("%d to %d frames, %s to %s on screen", q.From, q.To, seconds(q.From), seconds(q.To)))
	p.Field("laws", strings.Join(report.Each(p.d.Laws, law.Law.Name), ", "))
	p.Field("picture", "nothing that the pace decides worse than "+q.Accept.String())
	tried := fmt.Sprintf("%d loops", p.d.Answer.Tried)
	if p.d.Answer.Quickest != nil {
		tried += "; those told of were planned, verified and looked at frame by frame"
	}
	p.Field("tried", tried)
}

func (p *page) found(title string, f loopsearch.Found) {
	p.Section(title)
	words := fmt.Sprintf("%d frames, %s s on screen", f.Frames(), f.Shot.Loop.OnScreen().Decimal(3))
	if own := p.d.Question.Shot.Loop.Screen; own != f.Frames() {
		words += fmt.Sprintf("; the shot has %d", own)
	}
	p.Field("loop", words)
	p.Field("law", f.Law)
	p.Field("of the rig", used(f.Strain)+" of its acceleration and jerk")
	for _, v := range f.Report.Verdicts {
		if v.Paced {
			picturereport.Line(&p.Report, v)
		}
	}
	p.Field("to see it", Command(p.d.Command, f))
}

// used prints a share of the rig's limits in whole percent.
func used(share float64) string {
	if share > 0 && share < 0.005 {
		return "less than 1 %"
	}
	return fmt.Sprintf("at most %.0f %%", 100*share)
}

// Command is what plans a loop that was found, where plan plans the shot as it is.
func Command(plan string, f loopsearch.Found) string {
	out := fmt.Sprintf("%s --loop \"%d frames\"", plan, f.Frames())
	if f.Law != "" {
		out += " --law " + f.Law
	}
	return out
}

// kept says what held the other loops back.
func (p *page) kept() {
	a := p.d.Answer
	title := "WHAT HELD LOOPS BACK"
	if a.Quickest == nil {
		title = "NONE KEEPS ALL OF IT"
	}
	p.Section(title)
	if a.Tried == 0 {
		p.Field("", "no loop was tried: as it stands, the rig must not be driven")
	}
	for _, check := range slices.SortedFunc(maps.Keys(a.Kept), func(x, y string) int {
		return cmp.Or(cmp.Compare(a.Kept[y], a.Kept[x]), cmp.Compare(x, y))
	}) {
		p.Field(fmt.Sprintf("%6d", a.Kept[check]), "by "+cmp.Or(holders[check], check))
	}
}

// holders are what holds a loop back besides the picture, in words.
var holders = map[string]string{
	"limits": "the limits of the rig", "motors": "the torque of the motors",
	"controller": "what the controller can follow", "verifier": "the verifier",
}

func (p *page) checks(title string, list []picture.Verdict) {
	p.Section(title)
	for _, v := range list {
		picturereport.Tell(&p.Report, v)
		if len(v.Missing) > 0 {
			p.Toned(report.Dim, "", "needs "+strings.Join(v.Missing, "; "))
		}
	}
}

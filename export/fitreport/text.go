package fitreport

import (
	"cmp"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"seamrail/export/header"
	"seamrail/export/picturewords"
	"seamrail/export/textpage"
	"seamrail/motion/base/exact"
	"seamrail/motion/camera/picture"
	"seamrail/motion/plan/loopsearch"
)

type page struct {
	textpage.Page
	d Data
}

// Write writes the report as text of at most 80 columns, plain unless
// opt.Colour. The error is the writer's.
func Write(w io.Writer, d Data, opt Options) error {
	p := &page{textpage.Page{Colour: opt.Colour}, d}
	p.head()
	if d.Answer.Quickest != nil && d.Answer.Gentlest != nil {
		p.found("QUICKEST", *d.Answer.Quickest)
		p.found("GENTLEST", *d.Answer.Gentlest)
	}
	p.kept()
	p.checks("WHAT NO PACE CHANGES", d.Answer.Standing)
	p.checks("NOT KNOWN OF ANY PACE", d.Answer.Unknown)
	_, err := p.WriteTo(w)
	return err
}

func (p *page) head() {
	for _, l := range textpage.Fold(header.Clean(p.d.Title), textpage.Width) {
		p.Line(p.Paint(textpage.Bold+";"+textpage.Cyan, l))
	}
	p.Line(p.Paint(textpage.Dim, header.Clean(p.d.Rig)+" · loops that keep the picture and the rig's limits"))
	p.Section("LOOKED AMONG")
	q := p.d.Question
	rate := q.Shot.Clock.Playback
	seconds := func(frames int64) string { return exact.Int(frames).Quo(rate).Decimal(3) + " s" }
	p.Field("loops", fmt.Sprintf("%d to %d frames, %s to %s on screen", q.From, q.To, seconds(q.From), seconds(q.To)))
	if names := lawNames(p.d); len(names) > 0 {
		p.Field("laws", strings.Join(names, ", "))
	}
	p.Field("picture", "nothing that the pace decides worse than "+q.Accept.String())
	tried := fmt.Sprintf("%d loops", p.d.Answer.Tried)
	if p.d.Answer.Quickest != nil {
		tried += "; those below were planned, verified and looked at frame by frame"
	}
	p.Field("tried", tried)
}

func lawNames(d Data) []string {
	var out []string
	for _, l := range d.Laws {
		out = append(out, l.Name())
	}
	return out
}

func (p *page) found(title string, f loopsearch.Found) {
	p.Section(title)
	words := fmt.Sprintf("%d frames, %s s on screen", f.Frames(), f.Shot.Loop.OnScreen().Decimal(3))
	if own := p.d.Question.Shot.Loop.Screen; own != f.Frames() {
		words += fmt.Sprintf("; the shot has %d", own)
	}
	p.Field("loop", words)
	if f.Law != "" {
		p.Field("law", f.Law)
	}
	p.Field("of the rig", used(f.Strain)+" of its acceleration and jerk")
	for _, v := range paced(f) {
		picturewords.Line(&p.Page, v)
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

// Command is what plans a loop that was found.
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
	if a.Quickest == nil {
		p.Section("NONE KEEPS ALL OF IT")
	} else if len(a.Kept) > 0 {
		p.Section("WHAT HELD LOOPS BACK")
	}
	if a.Tried == 0 {
		p.Field("", "no loop was tried: as it stands, the rig must not be driven")
	}
	for _, check := range slices.SortedFunc(maps.Keys(a.Kept), func(x, y string) int {
		return cmp.Or(cmp.Compare(a.Kept[y], a.Kept[x]), cmp.Compare(x, y))
	}) {
		p.Field(fmt.Sprintf("%6d", a.Kept[check]), heldBy(check))
	}
}

func heldBy(check string) string {
	switch check {
	case "limits":
		return "by the limits of the rig"
	case "motors":
		return "by the torque of the motors"
	case "controller":
		return "by what the controller can follow"
	case "verifier":
		return "by the verifier"
	}
	return "by " + check
}

func (p *page) checks(title string, list []picture.Verdict) {
	if len(list) == 0 {
		return
	}
	p.Section(title)
	for _, v := range list {
		picturewords.Print(&p.Page, v)
		if len(v.Missing) > 0 {
			p.Inked(textpage.Dim, "", "needs "+header.Clean(strings.Join(v.Missing, "; ")))
		}
	}
}

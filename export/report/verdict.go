package report

import (
	"unicode/utf8"

	"seamrail/export/textpage"
	"seamrail/motion/plan"
	"seamrail/motion/plan/judge"
	"seamrail/motion/verify"
)

// verdict comes first: whether to press the button, and what to mind.
func (p *page) verdict(pl *plan.Plan, v verify.Verdict, opt Options) {
	p.Blank()
	h := opt.Headline
	p.mark(tones[h.Tone], h.Stamp, clean(h.Words))
	if h.Ready() {
		return
	}
	breaches := judge.Apart(pl.Breaches())
	for _, b := range breaches {
		f := pl.Fault(b)
		f.File, f.Line, f.Column = "", 0, 0
		p.Bullet(red, "x", f.String())
	}
	if len(breaches) == 0 {
		for _, f := range v.Failed() {
			p.Bullet(red, "x", axisText(f))
		}
	} else {
		p.collisions(opt.Picture)
	}
	for _, fit := range opt.Fits {
		p.Bullet(green, "+", fit)
	}
}

var tones = map[judge.Tone]string{judge.Clear: green, judge.Minded: yellow, judge.Barred: red}

func (p *page) mark(code, stamp, words string) {
	for i, l := range textpage.Fold(words, textpage.Width-utf8.RuneCountInString(stamp)-2) {
		head := p.Paint(bold+";"+code, stamp)
		if i > 0 {
			head = textpage.Spaces(utf8.RuneCountInString(stamp))
		}
		p.Line(head + "  " + l)
	}
}

func axisText(f verify.Finding) string {
	if f.Axis == "" {
		return f.Check + ": " + f.Text
	}
	return "axis " + f.Axis + ": " + f.Check + ": " + f.Text
}

package report

import (
	"fmt"
	"unicode/utf8"

	"seamrail/export/textpage"
	"seamrail/motion/plan"
	"seamrail/motion/verify"
)

// verdict comes first: whether to press the button.
func (p *page) verdict(pl *plan.Plan, v verify.Verdict, opt Options) {
	p.Blank()
	breaches := apart(pl.Breaches())
	good, words := verdictWords(pl, breaches, v)
	if good && opt.unable() {
		good, words = false, unableWords
	}
	if short := shortMotors(pl); good && len(short) > 0 {
		good, words = false, shortWords(short)
	}
	if good {
		p.mark(readyInk(pl, opt), "READY", words+opt.pictureWords())
		return
	}
	p.mark(red, "NOT READY", words)
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

// apart leaves out what a run-up or run-out breaks because the loop does: a
// table that is too fast in the loop is too fast on its way there.
func apart(all []plan.Breach) []plan.Breach {
	type key struct{ axis, quantity string }
	seen := map[key]bool{}
	var out []plan.Breach
	for _, b := range all {
		k := key{b.Axis, b.Quantity}
		if !seen[k] || b.Phase == "loop" {
			out = append(out, b)
		}
		seen[k] = true
	}
	return out
}

func (p *page) mark(code, stamp, words string) {
	for i, l := range textpage.Fold(words, textpage.Width-utf8.RuneCountInString(stamp)-2) {
		head := p.Paint(bold+";"+code, stamp)
		if i > 0 {
			head = textpage.Spaces(utf8.RuneCountInString(stamp))
		}
		p.Line(head + "  " + l)
	}
}

// verdictWords tells whether the plan may run, and why in an operator's words.
func verdictWords(pl *plan.Plan, breaches []plan.Breach, v verify.Verdict) (good bool, words string) {
	switch {
	case len(breaches) > 0:
		return false, fmt.Sprintf("The move asks for more than the rig can do, in %s.", counted(int64(len(breaches)), "place"))
	case !v.OK:
		return false, fmt.Sprintf("The move is within the limits, but %s did not pass.", counted(int64(len(v.Failed())), "check"))
	}
	if open := openStands(pl); len(open) > 0 {
		return true, "The rig can do it and every check passed, but the loop does not close on " + list(open) + ": the picture jumps there at every repeat."
	}
	if doubtful := standsWhere(pl, func(s plan.Stand) bool { return !s.Seam.Certain() }); len(doubtful) > 0 {
		return true, "The loop closes as long as " + list(doubtful) + " turns as its file says, the rig can do it, and every check passed."
	}
	return true, "The loop closes, the rig can do it, and every check passed."
}

func readyInk(pl *plan.Plan, opt Options) string {
	if len(openStands(pl)) > 0 || opt.pictureWords() != "" {
		return yellow
	}
	return green
}

func axisText(f verify.Finding) string {
	if f.Axis == "" {
		return f.Check + ": " + f.Text
	}
	return "axis " + f.Axis + ": " + f.Check + ": " + f.Text
}

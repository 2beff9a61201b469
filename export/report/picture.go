package report

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"seamrail/export/textpage"
	"seamrail/motion/picture"
	"seamrail/motion/plan"
)

// pictureDigits is how many digits the numbers beside a verdict keep: lamps,
// lenses and rulers are good for three.
const pictureDigits = 4

// picture tells what the move does to the picture: a verdict a check, the
// numbers beside it and what would help; then what was taken for granted and
// what a number more would tell.
func (p *page) picture(pl *plan.Plan, r *picture.Report) {
	if r == nil {
		return
	}
	p.Section("PICTURE")
	p.Field("in all", pictureSummary(r))
	for _, v := range r.Verdicts {
		if v.Level != picture.Unknown || len(v.Figures) > 0 {
			p.check(pl, v)
		}
	}
	for _, a := range r.Assumed {
		p.Field("taken", clean(a))
	}
	if lacks := lacking(r); len(lacks) > 0 {
		p.Inked(dim, "would tell", lackWords(lacks))
	}
}

// The margin of a verdict, by its level.
var pictureMarks = map[picture.Level]string{
	picture.Unknown: "?", picture.Good: " ", picture.Fair: "~", picture.Poor: "x", picture.Block: "X",
}

var pictureInks = map[picture.Level]string{
	picture.Unknown: dim, picture.Good: green, picture.Fair: yellow, picture.Poor: red, picture.Block: bold + ";" + red,
}

// check prints one verdict, its mark in the margin.
func (p *page) check(pl *plan.Plan, v picture.Verdict) {
	ink := pictureInks[v.Level]
	for i, l := range textpage.Fold(clean(v.Text), textpage.Width-textpage.Indent-textpage.LabelWidth) {
		margin, label := " ", ""
		if i == 0 {
			margin, label = pictureMarks[v.Level], shortCheck(v.Check)
		}
		p.Line(p.Paint(ink, margin) + " " + p.Paint(dim, textpage.Pad(label, textpage.LabelWidth)) + p.Paint(ink, l))
	}
	if numbers := numberWords(pl, v); numbers != "" {
		p.Inked(dim, "", numbers)
	}
	if len(v.Cures) > 0 {
		p.Field("", "would help: "+clean(strings.Join(v.Cures, "; or ")))
	}
}

// shortCheck is a check's name in the column of labels. Those of one axis or one
// hole name it in their text.
func shortCheck(check string) string {
	switch check {
	case "field of view", "screen speed", "shutter angle":
		return check
	}
	first, _, _ := strings.Cut(check, " ")
	return first
}

// numberWords lists the figures of a verdict and when the worst is.
func numberWords(pl *plan.Plan, v picture.Verdict) string {
	var out []string
	for _, f := range v.Figures {
		out = append(out, strings.TrimSpace(fmt.Sprintf("%s %s %s", f.Name, figureText(f.Value), f.Unit)))
	}
	if v.When != nil {
		out = append(out, where(pl, v.When.Seconds))
	}
	return list(out)
}

func figureText(v float64) string {
	return strconv.FormatFloat(rounded(v, pictureDigits), 'f', -1, 64)
}

// pictureSummary counts the checks by how they came out.
func pictureSummary(r *picture.Report) string {
	var out []string
	for _, c := range []struct {
		level picture.Level
		words string
	}{
		{picture.Good, "good"}, {picture.Fair, "will do (~)"}, {picture.Poor, "will not look right (x)"},
		{picture.Block, "must not be driven (X)"}, {picture.Unknown, "not known (?)"},
	} {
		if n := len(checksAt(r, c.level)); n > 0 {
			out = append(out, fmt.Sprintf("%d %s", n, c.words))
		}
	}
	return counted(int64(len(r.Verdicts)), "check") + ": " + list(out)
}

func checksAt(r *picture.Report, level picture.Level) []string {
	var out []string
	for _, v := range r.Verdicts {
		if v.Level == level {
			out = append(out, v.Check)
		}
	}
	return out
}

// lack is a number that is missing and the checks it would tell of.
type lack struct {
	number string
	checks []string
}

// lacking turns what each check misses about: what each missing number would
// tell.
func lacking(r *picture.Report) []lack {
	var out []lack
	for _, v := range r.Verdicts {
		for _, m := range v.Missing {
			i := slices.IndexFunc(out, func(l lack) bool { return l.number == m })
			if i < 0 {
				i, out = len(out), append(out, lack{number: m})
			}
			out[i].checks = append(out[i].checks, v.Check)
		}
	}
	return out
}

func lackWords(lacks []lack) string {
	parts := make([]string, len(lacks))
	for i, l := range lacks {
		parts[i] = clean(l.number) + " (" + clean(list(l.checks)) + ")"
	}
	return strings.Join(parts, "; ")
}

// pictureWords is what the verdict on the plan adds about its picture.
func (o Options) pictureWords() string {
	if o.Picture == nil {
		return ""
	}
	poor := checksAt(o.Picture, picture.Poor)
	if len(poor) == 0 {
		return ""
	}
	return " The picture will not look right in " + counted(int64(len(poor)), "point") + ": " + clean(list(poor)) + "."
}

// Package picturewords says what was found of a picture, for the reports that
// tell it: as lines of a page and as JSON.
package picturewords

import (
	"fmt"
	"strconv"
	"strings"

	"seamrail/export/header"
	"seamrail/export/textpage"
	"seamrail/motion/camera/picture"
)

// digits is how many digits the numbers beside a verdict keep: lamps, lenses and
// rulers are good for three.
const digits = 4

// The margin of a verdict, by its level.
var marks = [...]string{picture.Unknown: "?", picture.Good: " ", picture.Fair: "~", picture.Poor: "x", picture.Block: "X"}

var inks = [...]string{
	picture.Unknown: textpage.Dim, picture.Good: textpage.Green, picture.Fair: textpage.Yellow,
	picture.Poor: textpage.Red, picture.Block: textpage.Bold + ";" + textpage.Red,
}

var levels = [...]string{
	picture.Unknown: "not known (?)", picture.Good: "good", picture.Fair: "will do (~)",
	picture.Poor: "will not look right (x)", picture.Block: "must not be driven (X)",
}

// Print prints a verdict with its mark in the margin, the numbers beside it, what
// would help, and what would not or could not be tried.
func Print(p *textpage.Page, v picture.Verdict) {
	Line(p, v)
	if numbers := numbers(v); numbers != "" {
		p.Inked(textpage.Dim, "", numbers)
	}
	for _, l := range []struct {
		says string
		list []string
	}{{"would help: ", v.Cures}, {"tried in vain: ", v.Failed}, {"not tried: ", v.Advice}} {
		if len(l.list) > 0 {
			p.Field("", l.says+header.Clean(strings.Join(l.list, "; or ")))
		}
	}
}

// Line prints a verdict alone.
func Line(p *textpage.Page, v picture.Verdict) {
	ink := inks[v.Level]
	for i, l := range textpage.Fold(header.Clean(v.Text), textpage.Width-textpage.Indent-textpage.LabelWidth) {
		margin, label := " ", ""
		if i == 0 {
			margin, label = marks[v.Level], short(v.Check)
		}
		if margin != " " {
			margin = p.Paint(ink, margin)
		}
		p.Line(margin + " " + p.Paint(textpage.Dim, textpage.Pad(label, textpage.LabelWidth)) + p.Paint(ink, l))
	}
}

// short is a check's name in the column of labels. Those of one axis or one hole
// name it in their text.
func short(check string) string {
	switch check {
	case "field of view", "screen speed", "shutter angle":
		return check
	}
	first, _, _ := strings.Cut(check, " ")
	return first
}

// numbers lists the figures of a verdict and when the worst is.
func numbers(v picture.Verdict) string {
	var out []string
	for _, f := range v.Figures {
		value := strconv.FormatFloat(rounded(f.Value, digits), 'f', -1, 64)
		out = append(out, strings.TrimSpace(fmt.Sprintf("%s %s %s", f.Name, value, f.Unit)))
	}
	if v.When != nil {
		out = append(out, fmt.Sprintf("at %.3f s, frame %d", v.When.OnScreen, v.When.Frame))
	}
	return strings.Join(out, ", ")
}

func rounded(v float64, digits int) float64 {
	out, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', digits, 64), 64)
	if err != nil || out == 0 {
		return 0 // never the negative zero
	}
	return out
}

// Summary counts the checks by how they came out.
func Summary(r picture.Report) string {
	var out []string
	for _, l := range []picture.Level{picture.Good, picture.Fair, picture.Poor, picture.Block, picture.Unknown} {
		if n := len(At(r, l)); n > 0 {
			out = append(out, fmt.Sprintf("%d %s", n, levels[l]))
		}
	}
	return fmt.Sprintf("%d checks: %s", len(r.Verdicts), strings.Join(out, ", "))
}

// At names the checks that came out at a level.
func At(r picture.Report, level picture.Level) []string {
	var out []string
	for _, v := range r.Verdicts {
		if v.Level == level {
			out = append(out, v.Check)
		}
	}
	return out
}

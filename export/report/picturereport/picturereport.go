// Package picturereport tells what was found of a picture, for the reports that
// have a part about it.
package picturereport

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"seamrail/export/report"
	"seamrail/motion/camera/picture"
)

// grade is how a level is told.
type grade struct {
	tone        report.Tone
	mark, words string
}

var grades = [...]grade{
	picture.Unknown: {report.Dim, "?", "not known (?)"},
	picture.Good:    {report.Good, "", "good"},
	picture.Fair:    {report.Fair, "~", "will do (~)"},
	picture.Poor:    {report.Poor, "x", "will not look right (x)"},
	picture.Block:   {report.Grave, "X", "must not be driven (X)"},
}

// Tell adds a verdict with the numbers beside it, what would help, and what would
// not or could not be tried.
func Tell(r *report.Report, v picture.Verdict) {
	Line(r, v)
	r.Toned(report.Dim, "", numbers(v))
	Help(r, v)
}

// Help adds what would help, and what would not or could not be tried.
func Help(r *report.Report, v picture.Verdict) {
	for _, l := range []struct {
		says string
		list []string
	}{{"would help: ", v.Cures.Words()}, {"tried in vain: ", v.Failed}, {"not tried: ", v.Advice}} {
		if len(l.list) > 0 {
			r.Field("", l.says+strings.Join(l.list, "; or "))
		}
	}
}

// Line adds a verdict alone.
func Line(r *report.Report, v picture.Verdict) {
	g := grades[v.Level]
	r.Add(report.Field{Label: short(v.Check), Text: v.Text, Tone: g.tone, Mark: g.mark})
}

// short is a check's name in the column of labels. Those of one axis or one hole
// name it in their text.
func short(check string) string {
	switch check {
	case "field of view", "in frame", "screen speed", "shutter angle":
		return check
	}
	first, _, _ := strings.Cut(check, " ")
	return first
}

// numbers lists the figures of a verdict and when the worst is. Lamps, lenses and
// rulers are good for three digits.
func numbers(v picture.Verdict) string {
	var out []string
	for _, f := range v.Figures {
		out = append(out, strings.TrimSpace(fmt.Sprintf("%s %s %s", f.Name, report.Digits(f.Value, 4), f.Unit)))
	}
	if v.When != nil {
		out = append(out, fmt.Sprintf("at %.3f s, frame %d", v.When.OnScreen, v.When.Frame))
	}
	return strings.Join(out, ", ")
}

// Summary counts the checks by how they came out.
func Summary(r picture.Report) string {
	var out []string
	for _, l := range []picture.Level{picture.Good, picture.Fair, picture.Poor, picture.Block, picture.Unknown} {
		n := 0
		for _, v := range r.Verdicts {
			if v.Level == l {
				n++
			}
		}
		if n > 0 {
			out = append(out, fmt.Sprintf("%d %s", n, grades[l].words))
		}
	}
	return fmt.Sprintf("%d checks: %s", len(r.Verdicts), strings.Join(out, ", "))
}

// Blocks tells what must not be driven: what would strike the lens.
func Blocks(r picture.Report) []string {
	var out []string
	for _, v := range r.Verdicts {
		if v.Level == picture.Block {
			out = append(out, v.Check+": "+v.Text)
		}
	}
	return out
}

// OwnBounds puts those that are not the usual ones in a line, "" for none.
func OwnBounds(r picture.Report) string {
	var out []string
	for _, b := range bounds(r) {
		if b.Own {
			value := strconv.FormatFloat(b.Value, 'f', -1, 64)
			out = append(out, strings.TrimSpace(fmt.Sprintf("%s %s %s", b.Key, value, b.Unit)))
		}
	}
	return strings.Join(out, ", ")
}

// lacks turns what each check misses about: what each missing number would tell.
func lacks(r picture.Report) []Lack {
	out := []Lack{}
	for _, v := range r.Verdicts {
		for _, m := range v.Missing {
			i := slices.IndexFunc(out, func(l Lack) bool { return l.Number == m })
			if i < 0 {
				i, out = len(out), append(out, Lack{Number: m})
			}
			out[i].Checks = append(out[i].Checks, v.Check)
		}
	}
	return out
}

// Lacks says in a line which numbers are missing, and the checks they would tell of.
func Lacks(r picture.Report) string {
	parts := report.Each(lacks(r), func(l Lack) string { return l.Number + " (" + strings.Join(l.Checks, ", ") + ")" })
	return strings.Join(parts, "; ")
}

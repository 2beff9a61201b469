package footagereport

import (
	"cmp"
	"fmt"
	"slices"

	"seamrail/export/report"
	"seamrail/motion/footage"
	"seamrail/motion/footage/against"
	"seamrail/motion/footage/alike"
)

// Takes are several recordings of one shot.
type Takes struct {
	Shot string // its title; "" where there is none
	List []Data
}

// Ordered are they, the likeliest to be kept first.
func (t Takes) Ordered() []Data {
	list := slices.Clone(t.List)
	slices.SortStableFunc(list, inOrder)
	return list
}

// Facts tells them to programs: a Document each, the likeliest to be kept first.
func (t Takes) Facts() any { return report.Each(t.Ordered(), Data.document) }

// Report tells them side by side, the likeliest to be kept first. Which one is kept a person
// decides.
func (t Takes) Report() report.Report {
	r := report.Report{Title: "What was filmed: " + fmt.Sprintf("%d takes", len(t.List)), Subtitle: t.Shot}
	list := t.Ordered()
	if len(list) > 0 {
		r.Headline(t.headline(list[0]))
	}
	table := report.Table{
		Columns: []report.Column{
			{Head: "take"}, {Head: "frame 0", Right: true, Means: "the frame of the recording at which the plan begins"}, {Head: "off px", Right: true, Means: "the most that picture and plan differ by for a quarter of a second"},
			{Head: "seam", Right: true, Means: "the jump of the best loop, in shares of white; what is within an ordinary step of the take is not seen"},
			{Head: "swing px", Right: true, Means: "after-shake"}, {Head: "fine", Right: true, Means: "fine detail against that of the take that has most: less is blurred"}, {Head: "verdict"},
		},
		Spare: []string{"fine", "swing px"},
	}
	handed := slices.ContainsFunc(list, func(d Data) bool { return len(d.Hands) > 0 })
	if handed {
		table.Columns = slices.Insert(table.Columns, len(table.Columns)-1, report.Column{Head: "hands", Means: "the worst of what hands were to do, in captured frames beside its window"})
	}
	sharpest := 0.0
	for _, d := range list {
		sharpest = max(sharpest, d.fine())
	}
	for _, d := range list {
		row := d.row(sharpest)
		if handed {
			row.Cells = slices.Insert(row.Cells, len(row.Cells)-1, d.handsWord())
		}
		table.Rows = append(table.Rows, row)
	}
	r.Named("takes", "")
	r.Add(table)
	words := "Which is kept, you decide: whether the hand did well, no figure here tells."
	if handed {
		words = "Which is kept, you decide: that a hand was in time, is told; whether it did well, no figure tells."
	}
	r.Bullets(report.Dim, " ", words)
	if !slices.ContainsFunc(list, func(d Data) bool { return d.Kept != nil }) {
		r.Bullets(report.Dim, " ", "With --keep FILM=TAKE one is kept, and the edit is told of its frames.")
	}
	for _, d := range list {
		d.kept(&r)
	}
	return r
}

func (t Takes) headline(best Data) (report.Tone, string, string) {
	name := best.Course.About.Name
	switch {
	case best.Plan != nil && best.Plan.Verdict.Kind == against.IsPlan:
		return report.Good, "A TAKE IS THE PLAN", name + " first, by these figures"
	case best.Plan != nil:
		return report.Fair, "NO TAKE IS THE PLAN", name + " comes nearest"
	case best.seamless():
		return report.Good, "LOOPS", name + " has the best"
	}
	return report.Fair, "NO SEAM UNSEEN", name + " has the least jump"
}

// inOrder has takes that are the plan first, then those whose hands were in time, whose seam is not seen, then by what is
// apart.
func inOrder(a, b Data) int {
	return cmp.Or(
		cmp.Compare(a.rank(), b.rank()),
		cmp.Compare(a.handsRank(), b.handsRank()),
		-compareBool(a.seamless(), b.seamless()),
		cmp.Compare(a.left(), b.left()),
		cmp.Compare(a.score(), b.score()),
	)
}

func compareBool(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return 1
	}
	return -1
}

func (d Data) rank() int {
	if d.Plan == nil {
		return 0
	}
	return map[against.Kind]int{against.IsPlan: 0, against.NotKnown: 1, against.Differs: 2}[d.Plan.Verdict.Kind]
}

func (d Data) left() float64 {
	if d.Plan == nil {
		return 0
	}
	return d.Plan.Verdict.Apart
}

// best is the best loop; nil where there is none.
func (d Data) best() *alike.Run {
	if d.Loops == nil || len(d.Loops.Runs) == 0 {
		return nil
	}
	return &d.Loops.Runs[0]
}

func (d Data) seamless() bool { return d.best() != nil && d.best().Unseen }

func (d Data) score() float64 {
	if d.best() == nil {
		return 1
	}
	return d.best().Score
}

// fine is the middle of how much fine detail frames have.
func (d Data) fine() float64 {
	list := report.Each(d.Course.Frames, func(f footage.Frame) float64 { return f.Fine })
	slices.Sort(list)
	if len(list) == 0 {
		return 0
	}
	return list[len(list)/2]
}

func (d Data) row(sharpest float64) report.Row {
	cells := []string{d.Course.About.Name, "-", "-", "-", "-", "-", "looked through"}
	tone := report.Plain
	if p := d.Plan; p != nil {
		var stamp string
		tone, stamp = verdictOf(p.Verdict)
		cells[2], cells[6] = report.Digits(p.Verdict.Apart, 2), stamp
		if p.Frame0.Known {
			cells[1] = report.Digits(p.Frame0.Value+float64(d.First), 6)
		}
		if p.Shake != nil {
			cells[4] = report.Digits(p.Shake.Amplitude.Value, 2)
		}
		if len(p.Verdict.Causes) > 0 {
			cells[6] += ": " + p.Verdict.Causes[0].Text
		}
	}
	if run := d.best(); run != nil {
		cells[3] = percent(run.Score)
		if run.Unseen {
			cells[3] += " +"
		}
	}
	if sharpest > 0 {
		cells[5] = fmt.Sprintf("%.0f %%", 100*d.fine()/sharpest)
	}
	return report.Row{Cells: cells, Verdict: tone}
}

// Package rigsreport says on which of several rigs a shot can be filmed, how quickly and
// how gently, and what each of them lacks.
package rigsreport

import (
	"strconv"
	"strings"

	"seamrail/export/report"
	"seamrail/export/report/fitreport"
	"seamrail/motion/base/list"
	"seamrail/motion/base/plain"
	"seamrail/motion/plan/judge"
	"seamrail/motion/plan/loopsearch"
)

// Data is what there is to tell.
type Data struct {
	Title string
	Rigs  []Rig // as they were named
}

// Rig is a shot on one rig.
type Rig struct {
	File, Name string
	// Lacks are the axes and stands that the shot asks for and the rig does not have. All
	// below is of the shot without them.
	Lacks   []string
	Remains string // what of the shot remains then, in words; "" where nothing moves
	Fault   string // why it cannot be planned at all; "" where it is
	Verdict judge.Headline
	Fits    []string // in words, what would bring it within the limits
	// Unasked is why no loop was looked for; "" where one was.
	Unasked string
	Answer  loopsearch.Answer
	Command string // what plans the shot on this rig
}

// planned tells whether there is a verdict.
func (r Rig) planned() bool { return r.Fault == "" }

// Holds tells whether the shot can be filmed with the rig, as it is or in another loop.
func (r Rig) Holds() bool {
	return r.planned() && (r.Verdict.Ready() || r.Answer.Quickest != nil)
}

// Report tells it to people.
func (d Data) Report() report.Report {
	r := report.Report{Title: d.Title, Subtitle: plain.Count(len(d.Rigs), "rig")}
	r.Named("rigs", "")
	r.Add(d.table())
	for _, one := range d.Rigs {
		r.Member(d.called(one), "rigs", one.heading())
		one.tell(&r)
	}
	return r
}

// called is the name of a rig, and its file where another is called alike.
func (d Data) called(r Rig) string {
	if list.Count(d.Rigs, func(o Rig) bool { return o.Name == r.Name }) > 1 {
		return r.Name + ", " + r.File
	}
	return r.Name
}

func (r Rig) heading() string { return strings.ToUpper(r.Name) }

const none = "-"

func (d Data) table() report.Table {
	out := report.Table{Columns: []report.Column{{Head: "rig"}, {Head: "as it stands"}, {Head: "quickest", Means: "the shortest loop that keeps the picture, in frames of the timeline, and its law"}, {Head: "gentlest", Means: "the one that is easiest on the rig"}, {Head: "lacks"}}}
	for _, r := range d.Rigs {
		out.Rows = append(out.Rows, report.Row{Cells: []string{
			d.called(r), r.stamp(), r.loop(r.Answer.Quickest), r.loop(r.Answer.Gentlest), orNone(strings.Join(r.Lacks, ", ")),
		}})
	}
	return out
}

func orNone(text string) string {
	if text == "" {
		return none
	}
	return text
}

func (r Rig) stamp() string {
	switch {
	case r.planned():
		return r.Verdict.Stamp
	case r.Remains == "" && len(r.Lacks) > 0:
		return "nothing left"
	}
	return "cannot be"
}

func (r Rig) loop(f *loopsearch.Found) string {
	if f == nil {
		return none
	}
	words := strconv.FormatInt(f.Frames(), 10)
	if f.Law != "" {
		words += " " + f.Law
	}
	return words
}

// tell says of one rig what the table has no room for.
func (r Rig) tell(to *report.Report) {
	to.Field("file", r.File)
	if len(r.Lacks) > 0 {
		words := "nothing of the shot would move"
		if r.Remains != "" {
			words = "what remains is " + r.Remains
		}
		to.Field("lacks", strings.Join(r.Lacks, ", ")+": "+words)
	}
	if !r.planned() {
		if r.Remains != "" || len(r.Lacks) == 0 {
			to.Bullets(report.Poor, "x", strings.Split(r.Fault, "\n")...)
		}
		return
	}
	to.Toned(report.JudgeTone(r.Verdict.Tone), "as it stands", r.Verdict.Stamp+": "+r.Verdict.Words)
	to.Bullets(report.Good, "+", r.Fits...)
	to.Field("to see it", r.Command)
	r.loops(to)
}

func (r Rig) loops(to *report.Report) {
	switch a := r.Answer; {
	case r.Unasked != "":
		to.Field("loops", "none looked for: "+r.Unasked)
	case a.Quickest == nil:
		to.Field("loops", "none of "+plain.Count(a.Tried, "loop")+" keeps the picture and the rig's limits")
	default:
		to.Field("quickest", fitreport.Command(r.Command, *a.Quickest))
		to.Field("gentlest", fitreport.Command(r.Command, *a.Gentlest))
	}
}

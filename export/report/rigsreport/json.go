package rigsreport

import (
	"seamrail/export/report"
	"seamrail/export/report/fitreport"
	"seamrail/motion/base/exact"
	"seamrail/motion/plan/loopsearch"
)

// Schema names the layout of the JSON report. It changes when a key changes its
// meaning or goes; keys may be added.
const Schema = "seamrail-rigs/1"

// Document is the JSON report.
type Document struct {
	Schema string  `json:"schema"`
	Title  string  `json:"title"`
	Rigs   []OnRig `json:"rigs"`
}

// OnRig is the shot on one rig.
type OnRig struct {
	File     string          `json:"file"`
	Name     string          `json:"name"`
	Holds    bool            `json:"holds"`   // it can be filmed, as it stands or in another loop
	Lacks    []string        `json:"lacks"`   // axes and stands; all below is without them
	Remains  string          `json:"remains"` // what of the shot remains without them, in words
	Fault    string          `json:"fault"`   // why it cannot be planned at all; "" where it is
	Verdict  *report.Verdict `json:"verdict"` // null where it cannot be planned
	Fits     []string        `json:"fits"`    // what would bring it within the limits
	Command  string          `json:"command"`
	Unasked  string          `json:"unasked"` // why no loop was looked for; "" where one was
	Tried    int             `json:"tried"`
	Quickest *Loop           `json:"quickest"` // null where none keeps every bound
	Gentlest *Loop           `json:"gentlest"`
}

// Loop is one loop that keeps every bound.
type Loop struct {
	Screen   int64     `json:"timeline_frames"`
	Captured int64     `json:"captured_frames"`
	Seconds  exact.Rat `json:"screen_seconds"`
	Law      string    `json:"law"`
	Strain   float64   `json:"strain"` // greatest share of an acceleration or jerk limit
	Command  string    `json:"command"`
}

// Facts tells it to programs: a Document.
func (d Data) Facts() any {
	return Document{Schema: Schema, Title: d.Title, Rigs: report.Each(d.Rigs, Rig.facts)}
}

func (r Rig) facts() OnRig {
	out := OnRig{
		File: r.File, Name: r.Name, Holds: r.Holds(), Lacks: report.List(r.Lacks), Remains: r.Remains, Fault: r.Fault,
		Fits: report.List(r.Fits), Command: r.Command, Unasked: r.Unasked, Tried: r.Answer.Tried,
		Quickest: r.found(r.Answer.Quickest), Gentlest: r.found(r.Answer.Gentlest),
	}
	if r.planned() {
		v := report.VerdictOf(r.Verdict)
		out.Verdict = &v
	}
	return out
}

func (r Rig) found(f *loopsearch.Found) *Loop {
	if f == nil {
		return nil
	}
	l := f.Shot.Loop
	return &Loop{l.Screen, l.Captured, l.OnScreen(), f.Law, report.Millionth(f.Strain), fitreport.Command(r.Command, *f)}
}

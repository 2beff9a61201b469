package fitreport

import (
	"seamrail/export/report"
	"seamrail/export/report/picturereport"
	"seamrail/motion/base/exact"
	"seamrail/motion/law"
	"seamrail/motion/plan/loopsearch"
)

// Schema names the layout of the JSON report. It changes when a key changes its
// meaning or goes; keys may be added.
const Schema = "seamrail-fit/1"

// Document is the JSON report.
type Document struct {
	Schema   string                `json:"schema"`
	Title    string                `json:"title"`
	Between  [2]int64              `json:"between"` // timeline frames
	Laws     []string              `json:"laws"`
	Accept   string                `json:"accept"`
	Tried    int                   `json:"tried"`
	Quickest *Loop                 `json:"quickest"`
	Gentlest *Loop                 `json:"gentlest"`
	Kept     map[string]int        `json:"held_back"` // loops, by what held them back
	Standing []picturereport.Check `json:"standing"`  // what no pace changes
	Unknown  []picturereport.Check `json:"unknown"`   // what a number is missing for
}

// Loop is one loop that keeps every bound.
type Loop struct {
	Screen   int64                   `json:"timeline_frames"`
	Captured int64                   `json:"captured_frames"`
	Seconds  exact.Rat               `json:"screen_seconds"`
	Law      string                  `json:"law"`
	Strain   float64                 `json:"strain"` // greatest share of an acceleration or jerk limit
	Command  string                  `json:"command"`
	Picture  *picturereport.Document `json:"picture"`
}

// Facts tells it to programs: a Document.
func (d Data) Facts() any {
	a := d.Answer
	return Document{
		Schema: Schema, Title: d.Title, Between: [2]int64{d.Question.From, d.Question.To},
		Laws: report.Each(d.Laws, law.Law.Name), Accept: d.Question.Accept.String(), Tried: a.Tried,
		Quickest: d.loop(a.Quickest), Gentlest: d.loop(a.Gentlest), Kept: a.Kept,
		Standing: report.Each(a.Standing, picturereport.CheckOf), Unknown: report.Each(a.Unknown, picturereport.CheckOf),
	}
}

func (d Data) loop(f *loopsearch.Found) *Loop {
	if f == nil {
		return nil
	}
	l := f.Shot.Loop
	return &Loop{
		Screen: l.Screen, Captured: l.Captured, Seconds: l.OnScreen(), Law: f.Law, Strain: report.Millionth(f.Strain),
		Command: Command(d.Command, *f), Picture: picturereport.DocumentOf(f.Report),
	}
}

// Package measurereport tells what was measured of a rig, and which lines of its file
// come of it.
package measurereport

import (
	"fmt"

	"seamrail/export/report"
)

// Schema names the layout of the JSON report. It changes when a key changes its
// meaning or goes; keys may be added.
const Schema = "seamrail-measure/1"

// Data is what there is to tell.
type Data struct {
	Rig   string
	Found []Found
}

// Found is what one measurement came to.
type Found struct {
	Axis   string   `json:"axis"`
	What   string   `json:"what"`   // "steps", "backlash"
	Value  *float64 `json:"value"`  // null where nothing was found
	Unit   string   `json:"unit"`   // of the value
	Sigma  float64  `json:"sigma"`  // its standard uncertainty
	Bound  float64  `json:"bound"`  // how far it may be out either way, in 95 of 100 cases
	Told   []Fact   `json:"told"`   // what that means
	Doubts []string `json:"doubts"` // at which it stopped
	Lines  []Line   `json:"lines"`  // of the file, that come of it
	// Written tells whether they are in the file.
	Written bool `json:"written"`
}

// Fact is a text under a label.
type Fact struct {
	Label string `json:"label"`
	Text  string `json:"text"`
}

// Line is a value of a file.
type Line struct {
	Path string `json:"path"`
	Old  string `json:"old"` // "" where there was none
	New  string `json:"new"`
}

// Document is the JSON report.
type Document struct {
	Schema string  `json:"schema"`
	Rig    string  `json:"rig"` // the file
	Found  []Found `json:"found"`
}

// Report tells it to people, at the end of the questions.
func (d Data) Report() report.Report {
	r := report.Report{Title: "Measured of " + d.Rig}
	if len(d.Found) == 0 {
		r.Subtitle = "nothing"
		return r
	}
	r.Named("found", "")
	for _, f := range d.Found {
		name := f.Axis + " " + f.What
		switch {
		case len(f.Doubts) > 0:
			r.Add(report.Field{Label: name, Text: "in doubt: " + f.Doubts[0], Tone: report.Poor})
		case len(f.Lines) == 0:
			r.Add(report.Field{Label: name, Text: "the file stands"})
		}
		for _, l := range f.Lines {
			words := "shown, not written"
			if f.Written {
				words = "written"
			}
			r.Add(report.Field{Label: name, Text: fmt.Sprintf("%s = %q, %s", l.Path, l.New, words)})
		}
	}
	return r
}

// Facts tells it to programs: a Document.
func (d Data) Facts() any {
	out := Document{Schema: Schema, Rig: d.Rig, Found: report.List(d.Found)}
	for i, f := range out.Found {
		out.Found[i].Told, out.Found[i].Doubts, out.Found[i].Lines = report.List(f.Told), report.List(f.Doubts), report.List(f.Lines)
	}
	return out
}

package format

import (
	"io"

	"seamrail/cmd/internal/job"
	"seamrail/export/report"
)

var reportText = []Format{{
	File: "report.txt", Purpose: "read this first: does it close, can the rig do it",
	Write: func(of *Of, w io.Writer) error { return Report(w, of.Job, false) },
}}

var planJSON = []Format{{
	Export: Export{Place: 6, Name: "json", Help: "the report, for other programs"},
	File:   "plan.json", Purpose: "the report for other programs",
	Write: func(of *Of, w io.Writer) error { return ReportJSON(w, of.Job) },
}}

// Report writes the report as text.
func Report(w io.Writer, j *job.Job, colour bool) error {
	opt := reported(j)
	opt.Colour = colour
	return report.Write(w, j.Plan, j.Verdict, opt)
}

// ReportJSON writes the report as JSON.
func ReportJSON(w io.Writer, j *job.Job) error {
	return report.WriteJSON(w, j.Plan, j.Verdict, reported(j))
}

// reported is what the report is told besides the plan.
func reported(j *job.Job) report.Options {
	return report.Options{
		Fits: j.Fits(), Controller: j.Expected(), Picture: j.Picture, Shakes: j.Shakes, Others: j.Others, Headline: j.Headline(),
	}
}

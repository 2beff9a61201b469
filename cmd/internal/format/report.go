package format

import (
	"io"

	"seamrail/cmd/internal/job"
	"seamrail/export/report"
	"seamrail/export/report/planreport"
)

var reportText = []Format{{
	File: "report.txt", Purpose: "read this first: does it close, can the rig do it",
	Write: func(of *Of, w io.Writer) error { return report.Text(w, Told(of.Job).Report(), false) },
}}

var planJSON = []Format{{
	Export: Export{Place: 6, Name: "json", Help: "the report, for other programs"},
	File:   "plan.json", Purpose: "the report for other programs",
	Write: func(of *Of, w io.Writer) error { return report.JSON(w, Told(of.Job).Facts()) },
}}

// Told is what the report of a job tells.
func Told(j *job.Job) planreport.Data {
	return planreport.Data{
		Plan: j.Plan, Verified: j.Verdict, Fits: j.Fits(), Controller: j.Expected(),
		Picture: j.Picture, Scene: j.Shot.Scene, Laid: j.Shot.Laid, Shakes: j.Shakes, Others: j.Others, Headline: j.Headline(),
	}
}

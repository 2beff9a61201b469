package format

import (
	"io"
	"path/filepath"

	"seamrail/cmd/internal/job"
	"seamrail/export/report"
	"seamrail/export/report/planreport"
	"seamrail/motion/base/list"
	"seamrail/motion/base/source"
	"seamrail/motion/cue/syncmark"
	"seamrail/motion/spec/shot"
)

var reportText = []Format{{
	File: "report.txt", Purpose: "read this first: does it close, can the rig do it",
	Write: func(of *Of, w io.Writer) error { return report.Text(w, Told(of.Job).Report(), false) },
}}

var planJSON = []Format{{
	Export: Export{Place: 6, Name: "json", Help: "the report, for other programs"},
	File:   "plan.json", Purpose: "the report for other programs", For: Edit,
	Write: func(of *Of, w io.Writer) error { return report.JSON(w, Told(of.Job).Facts()) },
}}

// asSeen is what lies under a shot, with the names of files as they are seen from the
// shot's own: wherever the program is run, they are the same.
func asSeen(s shot.Shot) shot.Laid {
	dir := filepath.Dir(s.File)
	name := func(file string) string {
		if seen, err := filepath.Rel(dir, file); err == nil && file != "" {
			return filepath.ToSlash(seen)
		}
		return file
	}
	text := func(t source.Text) source.Text { t.File = name(t.File); return t }
	return shot.Laid{
		Files: list.Map(s.Laid.Files, func(f shot.LaidFile) shot.LaidFile { f.Name = name(f.Name); return f }),
		Values: list.Map(s.Laid.Values, func(v source.Leaf) source.Leaf {
			v.Text, v.Below = text(v.Text), list.Map(v.Below, text)
			return v
		}),
	}
}

// byEye is after how many captured frames frame 0 could be found by eye, 0 where that is
// not known or nobody has to.
func byEye(j *job.Job) int64 {
	if j.Mark != nil || j.Schedule != nil { // every frame that is taken is one of the loop
		return 0
	}
	return syncmark.ByEye(j.Trajectory, j.Shot)
}

// Told is what the report of a job tells.
func Told(j *job.Job) planreport.Data {
	return planreport.Data{
		Plan: j.Plan, Verified: j.Verdict, Fits: j.Fits(), Controller: j.Expected(),
		Picture: j.Picture, Scene: j.Shot.Scene, Laid: asSeen(j.Shot), Shakes: j.Shakes, Schedule: j.Schedule, Others: j.Others, Headline: j.Headline(),
		Mark: j.Mark, Eye: byEye(j),
	}
}

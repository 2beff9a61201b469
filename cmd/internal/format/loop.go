package format

import (
	"io"

	"seamrail/cmd/internal/job"
	"seamrail/plot/figure"
)

var loopFigure = drawn("loop", "the motion drawn, for a screen", []string{"png", "svg", "pdf"}, nil,
	func(of *Of, w io.Writer, kind string) error { return Figure(w, of.Job, kind, figure.Options{}) })

// sameFor says what another kind of a drawing is for.
var sameFor = map[string]string{
	"png": "the same, for a screen", "svg": "the same, for a web page or an editor", "pdf": "the same, for paper",
}

// drawn is a drawing as files of several kinds, for the first of which its purpose is.
func drawn(name, purpose string, kinds []string, needs func(*Of) error, draw func(*Of, io.Writer, string) error) []Format {
	var out []Format
	for i, kind := range kinds {
		if i > 0 {
			purpose = sameFor[kind]
		}
		out = append(out, Format{
			File: name + "." + kind, Purpose: purpose, Needs: needs,
			Write: func(of *Of, w io.Writer) error { return draw(of, w, kind) },
		})
	}
	return out
}

// Figure draws a plan over its loop as a "png", "svg" or "pdf". One of the picture
// needs a job that is Pictured.
func Figure(w io.Writer, j *job.Job, kind string, opt figure.Options) error {
	d := figure.FromPlan(j.Plan, j.Verdict)
	if opt.Picture {
		d.Foot = "Plan " + j.Plan.Hash()
		d.Strips = figure.FromPicture(*j.Picture, j.Shot.Scene.Bounds)
	}
	return figure.Draw(w, kind, d, opt)
}

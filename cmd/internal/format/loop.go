package format

import (
	"io"

	"seamrail/cmd/internal/job"
	"seamrail/plot/motionplot"
)

var loopFigure = []Format{
	drawnLoop("png", "the motion drawn, for a screen"),
	drawnLoop("svg", "the same, for a web page or an editor"),
	drawnLoop("pdf", "the same, for paper"),
}

func drawnLoop(kind, purpose string) Format {
	return Format{
		File: "loop." + kind, Purpose: purpose,
		Write: func(of *Of, w io.Writer) error { return Figure(w, of.Job, kind, motionplot.Options{}) },
	}
}

// Figure draws a plan over its loop as a "png", "svg" or "pdf". One of the picture
// needs a job that is Pictured.
func Figure(w io.Writer, j *job.Job, kind string, opt motionplot.Options) error {
	d := motionplot.FromPlan(j.Plan, j.Verdict)
	if opt.Picture {
		d.Foot = "Plan " + j.Plan.Hash()
		d.Strips = motionplot.FromPicture(*j.Picture, j.Shot.Scene.Bounds)
	}
	return motionplot.Draw(w, kind, d, opt)
}

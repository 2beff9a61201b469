package format

import (
	"errors"
	"io"
	"strings"

	"seamrail/cmd/internal/job"
	"seamrail/export/table/pictures"
	"seamrail/motion/base/plain"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/picture"
	"seamrail/plot/motionplot"
	"seamrail/plot/topview"
)

var loopFigure = drawn("loop", "the motion drawn, for a screen", []string{"png", "svg", "pdf"}, nil,
	func(of *Of, w io.Writer, kind string) error { return Figure(w, of.Job, kind, motionplot.Options{}) })

// sameFor says what another kind of a drawing is for.
var sameFor = map[string]string{
	"png": "the same, for a screen", "svg": "the same, for a web page or an editor", "pdf": "the same, for paper",
}

// drawn is a drawing as files of several kinds, for the first of which its purpose is.
func drawn(
	name, purpose string, kinds []string, needs func(*Of) error, draw func(*Of, io.Writer, string) error,
) []Format {
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
func Figure(w io.Writer, j *job.Job, kind string, opt motionplot.Options) error {
	d := motionplot.FromPlan(j.Plan, j.Verdict)
	if opt.Picture {
		d.Foot = "Plan " + j.Plan.Hash()
		d.Strips = motionplot.FromPicture(*j.Picture, j.Shot.Scene.Bounds)
	}
	return motionplot.Draw(w, kind, d, opt)
}

var pictureTable = []Format{{
	Export: Export{Place: 5, Name: "picture", Help: "CSV, one row a captured frame: smear, focus, clearance and the rest"},
	File:   "picture.csv", Purpose: "smear, focus and clearance at each captured frame",
	Needs: func(of *Of) error { return of.Pictured() },
	Write: func(of *Of, w io.Writer) error { return pictures.Write(w, of.Trajectory, of.head(), *of.Picture) },
}}

var pictureFigure = drawn("picture", "smear, magnification, focus and clearance drawn, for a screen",
	[]string{"png", "svg", "pdf"}, func(of *Of) error { return of.Pictured() },
	func(of *Of, w io.Writer, kind string) error {
		return Figure(w, of.Job, kind, motionplot.Options{Picture: true})
	})

var aboveDrawing = drawn("above", "the scene from above, to scale: print it and build from it",
	[]string{"pdf", "png", "svg"},
	func(of *Of) error {
		_, err := of.above()
		return err
	},
	func(of *Of, w io.Writer, kind string) error {
		d, err := of.above()
		if err != nil {
			return err
		}
		return topview.Draw(w, kind, d, topview.Options{})
	})

// TopView is the scene from above, or an error that says what it takes.
func TopView(j *job.Job) (topview.Data, error) {
	scene, ok := lensview.Scene(j.Shot, j.Rig)
	if !ok {
		return topview.Data{}, job.ErrNoScene
	}
	d, err := topview.From(lensview.Motion(j.Trajectory), scene)
	if err != nil {
		return d, lensview.Located(err, j.Shot)
	}
	if len(d.Above.Items) == 0 {
		return d, errors.New("the scene cannot be drawn from above; it takes " + strings.Join(d.Above.Missing, ", and "))
	}
	d.Title, d.Foot = j.Plan.Title, "Plan "+j.Plan.Hash()
	for _, v := range j.Picture.Verdicts {
		if v.Level == picture.Block || v.Check == "clearance" && v.Level != picture.Unknown {
			d.Lines = append(d.Lines, plain.Sentence(v.Text))
		}
	}
	if err := j.Trouble(); err != nil {
		d.Title, d.Lines = "DO NOT RUN THIS: "+d.Title, append([]string{plain.Sentence(err.Error())}, d.Lines...)
	}
	return d, nil
}

package format

import (
	"errors"
	"io"
	"strings"

	"seamrail/cmd/internal/job"
	"seamrail/motion/picture"
	"seamrail/motion/plain"
	"seamrail/motion/sight"
	"seamrail/plot/planview"
)

var aboveDrawing = []Format{
	drawnAbove("pdf", "the scene from above, to scale: print it and build from it"),
	drawnAbove("png", "the same, for a screen"),
	drawnAbove("svg", "the same, for a web page or an editor"),
}

func drawnAbove(kind, purpose string) Format {
	return Format{
		File: "above." + kind, Purpose: purpose,
		Needs: func(of *Of) error {
			_, err := of.above()
			return err
		},
		Write: func(of *Of, w io.Writer) error {
			d, err := of.above()
			if err != nil {
				return err
			}
			return planview.Draw(w, kind, d, planview.Options{})
		},
	}
}

// Above is the scene from above, or an error that says what it takes.
func Above(j *job.Job) (planview.Data, error) {
	scene, ok := sight.Scene(j.Shot, j.Rig)
	if !ok {
		return planview.Data{}, job.ErrNoScene
	}
	d, err := planview.From(sight.Motion(j.Trajectory), scene)
	if err != nil {
		return d, sight.Located(err, j.Shot)
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

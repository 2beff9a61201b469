package format

import (
	"errors"
	"io"
	"strings"

	"seamrail/cmd/internal/job"
	"seamrail/export/textpage"
	"seamrail/motion/picture"
	"seamrail/motion/sight"
	"seamrail/plot/planview"
)

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
		return planview.Draw(w, kind, d, planview.Options{})
	})

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
			d.Lines = append(d.Lines, textpage.Sentence(v.Text))
		}
	}
	if err := j.Trouble(); err != nil {
		d.Title, d.Lines = "DO NOT RUN THIS: "+d.Title, append([]string{textpage.Sentence(err.Error())}, d.Lines...)
	}
	return d, nil
}

package format

import (
	"io"

	"seamrail/cmd/internal/job"
	"seamrail/motion/camera/lensview"
	"seamrail/plot/preview"
)

// A loop of more pictures than an animation holds has every nth.
var previewPicture = []Format{{
	File: "preview.png", Purpose: "what the lens sees, as a loop that a browser plays",
	Needs: seen,
	Write: func(of *Of, w io.Writer) error {
		f, _, err := Finder(of.Job, folderWidth, false)
		if err != nil {
			return err
		}
		_, err = f.WriteLoop(w, f.Every())
		return err
	},
}}

var seamPicture = []Format{{
	File: "seam.png", Purpose: "stills around the seam, to see whether it goes on",
	Needs: seen,
	Write: func(of *Of, w io.Writer) error {
		f, _, err := Finder(of.Job, StillWidth, false)
		if err != nil {
			return err
		}
		_, fill := Strip(of.Job, f, UsualStills)
		return fill(w)
	},
}}

// folderWidth is how wide the folder's preview is, in px: enough to judge a
// move by, and quick to draw.
const folderWidth = 320

// StillWidth is the usual width of each still of a strip, in px: eight of those lie
// side by side on a screen. UsualStills is how many there are on either side.
const (
	StillWidth  = 240
	UsualStills = 4
)

// seen is an error where what the lens sees cannot be drawn.
func seen(of *Of) error {
	_, _, err := Finder(of.Job, folderWidth, false)
	return err
}

// Finder returns what draws the job's pictures, and what had to be filled in.
// With apart, faces that look alike are told apart.
func Finder(j *job.Job, width int, apart bool) (*preview.Finder, []string, error) {
	m := lensview.Motion(j.Trajectory)
	scene, ok := lensview.Scene(j.Shot, j.Rig)
	var said []string
	if !ok {
		scene, said = preview.Guess(m)
	}
	if apart {
		scene.Product.Alike = 1
	}
	f, err := preview.New(m, scene, width)
	if err != nil {
		return nil, nil, lensview.Located(err, j.Shot)
	}
	return f, append(said, f.Assumed()...), nil
}

package format

import (
	"fmt"
	"io"

	"seamrail/cmd/internal/job"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/camera/lensview"
	"seamrail/plot/preview"
)

// A loop of more pictures than an animation holds has every nth.
// previewName is the file that shows the loop in motion.
const previewName = "preview.png"

var previewPicture = []Format{{
	File: previewName, Purpose: "what the lens sees, as a loop that a browser plays",
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

// Loop returns what writes every nth frame as an animation and, once it has, what to say
// of it.
func Loop(f *preview.Finder, every int64) (words func() []string, fill func(io.Writer) error) {
	var a preview.Animation
	fill = func(w io.Writer) error {
		var err error
		a, err = f.WriteLoop(w, every)
		return err
	}
	words = func() []string {
		wide, high := f.Size()
		out := []string{fmt.Sprintf("%s of %d by %d px, %s s on screen, for ever.",
			plain.Count(a.Pictures, "picture"), wide, high, a.Seconds.Decimal(3))}
		if every > 1 {
			out = append(out, fmt.Sprintf("It shows one frame in %d, each as long as those it stands for.", every))
		}
		return append(out, offWords(a)...)
	}
	return words, fill
}

// offWords says by how much the frame times of a file are off.
func offWords(a preview.Animation) []string {
	if a.Off.Sign() == 0 {
		return nil
	}
	return []string{fmt.Sprintf("Its frame times do not fit a PNG exactly: a round of it is %s by %.1g s.",
		longer(a.Off), a.Off.Abs().Float())}
}

func longer(off exact.Rat) string {
	if off.Sign() < 0 {
		return "too short"
	}
	return "too long"
}

// Strip returns what writes stills around the seam and, once it has, what to say of it.
func Strip(j *job.Job, f *preview.Finder, stills int) (words func() []string, fill func(io.Writer) error) {
	s := f.Seam(stills)
	text := seamWords(s)
	on := preview.StripWords{Title: j.Plan.Title, Lines: []string{text}, Foot: "Plan " + j.Plan.Hash()}
	if j.Picture != nil {
		if v, ok := j.Picture.Find("seam in the picture"); ok {
			on.Lines = append(on.Lines, plain.Sentence(v.Text))
		}
	}
	fill = func(w io.Writer) error { return preview.WriteStrip(w, s, on) }
	words = func() []string {
		return []string{plain.Count(len(s.Stills), "still") + " around the seam.", text}
	}
	return words, fill
}

// seamWords says whether a loop goes on at its seam.
func seamWords(s preview.Seam) string {
	last, next := s.Frames[len(s.Frames)/2-1], s.Frames[len(s.Frames)/2]
	text := fmt.Sprintf("From frame %d to frame %d the picture changes by %.1f of 255", last, next, s.Step())
	switch {
	case len(s.Changes) < 2:
		return text + "."
	case s.Hitches():
		return text + fmt.Sprintf(", beside the seam by no more than %.1f: it jumps.", s.Usual())
	}
	return text + fmt.Sprintf(", beside the seam by up to %.1f: it goes on.", s.Usual())
}

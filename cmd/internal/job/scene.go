package job

import (
	"errors"
	"strings"

	"seamrail/motion/scene"

	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/matchmove"
)

// ErrNoScene is said of a shot that has no picture to look at.
var ErrNoScene = errors.New("the shot says nothing of camera and scene; [camera] and [scene] in its file would")

// Pictured is an error that says what is missing where the shot has no picture
// that could be told frame by frame.
func (j *Job) Pictured() error {
	if j.Picture == nil {
		return ErrNoScene
	}
	if len(j.Picture.Rows) > 0 {
		return nil
	}
	v, _ := j.Picture.Find("magnification")
	return errors.New("how large things come out is not known; [camera] in the shot needs " + strings.Join(v.Missing, ", "))
}

// Lens is how the lens of the shot looks at it. It is an error that says what is
// missing where that is not known.
func (j *Job) Lens() (*matchmove.Shot, scene.Scene, error) {
	scene, ok := lensview.Scene(j.Shot, j.Rig)
	if !ok {
		return nil, scene, ErrNoScene
	}
	s, err := matchmove.New(lensview.Motion(j.Trajectory), scene)
	if err != nil {
		return nil, scene, lensview.Located(err, j.Shot)
	}
	return &s, scene, nil
}

// Package lensview joins a planned shot and its scene: what the lens sees of it.
package lensview

import (
	"context"
	"errors"
	"math"
	"slices"

	"seamrail/motion/scene"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/list"
	"seamrail/motion/camera/picture"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// Scene returns the scene of a shot on a rig, and whether the shot has any. The
// play of the axes is the rig's.
func Scene(s shot.Shot, r rig.Rig) (scene.Scene, bool) {
	if s.Scene == nil {
		return scene.Scene{}, false
	}
	out := *s.Scene
	out.Backlash = map[string]float64{}
	by := s.ByFrame
	out.Camera.Rests = by != nil
	for _, a := range r.Axes {
		switch {
		case a.Backlash == nil:
		case by != nil && by.OneSide: // always taken up
			out.Backlash[a.Name] = 0
		default:
			out.Backlash[a.Name] = *a.Backlash
		}
	}
	for _, stand := range s.Spins {
		if stand.Name == out.Stand.TableAxis {
			carry(&out, stand, r)
		}
	}
	return out, true
}

// carry takes from a display stand what it says of the product that it carries.
func carry(out *scene.Scene, s shot.Spin, r rig.Rig) {
	on, _ := r.Stand(s.Name)
	out.Stand.Loose = !on.Phased
	if out.Product.Alike == 0 {
		out.Product.Alike = int(s.Symmetry)
	}
}

// Examine looks at the picture of a planned shot. Without a scene it returns
// nil. The error is a fault.List with the lines of the shot file.
func Examine(t *trajectory.Trajectory, s shot.Shot) (*picture.Report, error) {
	return ExamineUntil(context.Background(), t, s)
}

// ExamineUntil is Examine until ctx ends, whose error it then returns.
func ExamineUntil(ctx context.Context, t *trajectory.Trajectory, s shot.Shot) (*picture.Report, error) {
	return seen(t, s, func(scene scene.Scene) (picture.Report, error) {
		return picture.ExamineUntil(ctx, Replanned(t, s), scene)
	})
}

func seen(t *trajectory.Trajectory, s shot.Shot, look func(scene.Scene) (picture.Report, error)) (*picture.Report, error) {
	scene, ok := Scene(s, t.Rig())
	if !ok {
		return nil, nil
	}
	r, err := look(scene)
	if err != nil {
		return nil, Located(err, s)
	}
	return &r, nil
}

// Peek is Examine in no frame, for those who want to know whether it could be done.
func Peek(_ context.Context, t *trajectory.Trajectory, s shot.Shot) (*picture.Report, error) {
	return seen(t, s, func(scene scene.Scene) (picture.Report, error) { return picture.Peek(Motion(t), scene) })
}

// sketched is how many frames of a loop a sketch looks at: a law's peak lies between two
// of them within a few thousandths of its height.
const sketched = 120

// Sketch is ExamineUntil in some of the frames and without cures, for a shot that is still
// being changed.
func Sketch(ctx context.Context, t *trajectory.Trajectory, s shot.Shot) (*picture.Report, error) {
	return seen(t, s, func(scene scene.Scene) (picture.Report, error) {
		return picture.Sketch(ctx, Motion(t), scene, sketched)
	})
}

// Turns are what a hand does to the focus ring, on the captured frames at which it sets out
// and arrives.
func Turns(t *trajectory.Trajectory, r *picture.Report) []shot.Turn {
	if r == nil {
		return nil
	}
	clock := t.Clock()
	on := func(sec float64) exact.Rat {
		return clock.FrameTime(int64(math.Round(sec * clock.Capture.Float())))
	}
	return list.Map(r.Pulls, func(p picture.Pulling) shot.Turn { return shot.Turn{Sets: on(p.From), Arrives: on(p.To), To: p.Ends} })
}

// Located gives faults of a scene the lines of the shot file they speak of.
func Located(err error, s shot.Shot) error {
	var list fault.List
	if errors.As(err, &list) {
		return s.Located(list)
	}
	return err
}

// Motion returns a trajectory as the lens sees it: its axes, and after them its
// display stands, which turn by themselves.
func Motion(t *trajectory.Trajectory) picture.Motion {
	if t.StandCount() == 0 {
		return t
	}
	return newTurning(t)
}

// PixelsPerMM is the scale of the picture of a planned shot, 0 where the shot does not
// say it.
func PixelsPerMM(s shot.Shot, r rig.Rig, t *trajectory.Trajectory) float64 {
	scene, ok := Scene(s, r)
	if !ok {
		return 0
	}
	scale, ok := picture.Scale(Motion(t), scene)
	if !ok {
		return 0
	}
	return scale
}

// Blocking lists what must keep a rig from being driven.
func Blocking(r *picture.Report) []picture.Verdict {
	if r == nil {
		return nil
	}
	return slices.DeleteFunc(slices.Clone(r.Verdicts), func(v picture.Verdict) bool { return v.Level != picture.Block })
}

package picture

import (
	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/camera/pose"
)

// setting is how every axis that matters to the picture stands.
type setting struct {
	shift                   r3.Vec  // mm, what the slides carry the camera
	table, pan, tilt, focus float64 // degrees, and mm from the lens
}

// pose is where the lens is in a setting.
func (e *eye) pose(q setting) pose.Pose {
	s := e.scene.Stand
	pan, tilt := s.Pan.Or(0), s.Tilt.Or(0)
	at := r3.Add(s.LensAt(e.scene.LensHeight()), q.shift)
	if behind := s.PivotBehind.Or(0); behind != 0 {
		swing := r3.Sub(pose.Direction(pan+q.pan, tilt+q.tilt), pose.Direction(pan, tilt))
		at = r3.Add(at, r3.Scale(behind, swing))
	}
	return pose.NewPose(at, pan+q.pan, tilt+q.tilt)
}

// settingOf reads the axes through a function from axis number to position.
func (e *eye) settingOf(position func(i int) float64) setting {
	q := setting{focus: e.focus}
	for k, i := range e.slides {
		l := e.scene.Stand.Slides[k]
		q.shift = r3.Add(q.shift, r3.Scale(position(i)-l.Zero, e.along[k]))
	}
	for _, a := range []struct {
		axis int
		to   *float64
	}{{e.table, &q.table}, {e.pan, &q.pan}, {e.tilt, &q.tilt}, {e.pull, &q.focus}} {
		if a.axis >= 0 {
			*a.to = position(a.axis)
		}
	}
	return q
}

// at is the setting at sec real seconds of an endless loop.
func (e *eye) at(sec float64) setting {
	return e.focusedByHand(sec, e.settingOf(func(i int) float64 { return e.motion.State(i, sec).Pos }))
}

// nudged is the setting at sec with one axis moved by so much.
func (e *eye) nudged(sec float64, axis int, by float64) setting {
	q := e.settingOf(func(i int) float64 {
		pos := e.motion.State(i, sec).Pos
		if i == axis {
			pos += by
		}
		return pos
	})
	q.focus = e.at(sec).focus // which no hand moves for a step
	if axis == e.pull {
		q.focus += by
	}
	return q
}

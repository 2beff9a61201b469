package lensview

import (
	"math"
	"slices"
	"strings"

	"seamrail/motion/base/fault"
	"seamrail/motion/base/list"
	"seamrail/motion/base/source"
	"seamrail/motion/camera/picture"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/scene"
	"seamrail/motion/spec/shot"
)

// replanned is a trajectory as the lens sees it that can be planned anew.
type replanned struct {
	picture.Motion
	shot shot.Shot
	t    *trajectory.Trajectory
}

// Replanned returns the trajectory of a shot as the lens sees it, which can be planned
// anew with other values in its file, so that what is told as a cure has been tried.
func Replanned(t *trajectory.Trajectory, s shot.Shot) picture.Motion {
	return replanned{Motion(t), s, t}
}

// With implements picture.Rewriter.
func (m replanned) With(edits ...fault.Edit) (picture.Motion, scene.Scene, bool) {
	s, err := m.shot.Changed(list.Map(edits, func(e fault.Edit) source.Override {
		return source.Override{Path: e.Path, Text: e.Text, Origin: "what would help"}
	})...)
	if err != nil {
		return nil, scene.Scene{}, false
	}
	p, err := plan.Build(s, m.t.Rig())
	if err != nil || moves(edits) && len(p.Breaches()) > 0 {
		return nil, scene.Scene{}, false
	}
	seen, ok := Scene(s, m.t.Rig())
	return Motion(trajectory.New(p)), seen, ok
}

// moves tells whether values change what the rig does. Where they do not, what it breaks it
// broke before.
func moves(edits []fault.Edit) bool {
	return slices.ContainsFunc(edits, func(e fault.Edit) bool {
		return !strings.HasPrefix(e.Path, "camera.") && !strings.HasPrefix(e.Path, "scene.")
	})
}

// Loops implements picture.Rewriter.
func (m replanned) Loops() bool { return !m.shot.Quickest }

// Less implements picture.Rewriter.
func (m replanned) Less(axis int, share float64) [][]fault.Edit {
	name := m.Axis(axis).Name
	i := slices.IndexFunc(m.shot.Axes, func(a shot.AxisMove) bool { return a.Name == name })
	if i < 0 {
		return nil
	}
	s, ok := m.shot.Axes[i].Does.(move.Shrinker)
	if !ok {
		return nil
	}
	low, high := math.Inf(-1), math.Inf(1)
	if a := m.Axis(axis); !a.Endless {
		low, high = a.Min, a.Max
	}
	return list.Map(s.Shrunk(share, low, high, m.shot.Clock), func(c move.Change) []fault.Edit {
		return list.Map(c.Edits, func(e move.Edit) fault.Edit {
			return fault.Edit{Path: source.Join("axis", name) + "." + e.Key, Text: e.Text}
		})
	})
}

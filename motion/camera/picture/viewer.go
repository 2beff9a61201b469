package picture

import (
	"slices"

	"seamrail/motion/scene"

	"seamrail/motion/camera/pose"
)

// Viewer tells how the lens looks at the scene at any instant, for those who
// draw what it sees.
type Viewer struct{ e *eye }

// Sight is how the lens looks at one instant.
type Sight struct {
	Pose  pose.Pose // of the entrance pupil, which the lens sees from
	Table float64   // degrees that the product has turned
	Focus float64   // mm from there to the plane in focus
	Scale float64   // px of the delivered picture for a tangent of 1
}

// NewViewer returns the viewer of a move. It returns an error, a fault.List,
// Lights Examine would.
func NewViewer(m Motion, s scene.Scene) (Viewer, error) {
	e, err := newEye(m, s)
	return Viewer{e}, err
}

// Missing names what it would take to draw the picture; it is empty where
// nothing is missing.
func (v Viewer) Missing() []string {
	missing := slices.Clone(v.e.missing)
	if v.e.flat {
		missing = append(missing, "distance, or focal length and magnification")
	}
	if !v.e.wide.Given {
		missing = append(missing, "pixels wide")
	}
	if !v.e.high.Given {
		missing = append(missing, "pixels high")
	}
	return missing
}

// Assumed says what was taken for numbers that follow from no others.
func (v Viewer) Assumed() []string { return slices.Clone(v.e.assumed) }

// Size is the delivered picture's, in px.
func (v Viewer) Size() (wide, high scene.Number) { return v.e.wide, v.e.high }

// Shutter is how long a frame is exposed, in real s.
func (v Viewer) Shutter() scene.Number {
	if v.e.rests() {
		return scene.Is(0)
	}
	return v.e.shutter
}

// Iris is the diameter of the opening that light comes through, in mm: f/N.
func (v Viewer) Iris() scene.Number {
	n := v.e.scene.Lens.Aperture
	if !v.e.focal.Given || !n.Given {
		return scene.Number{}
	}
	return scene.Is(v.e.focal.Value / v.e.stop())
}

// LampsAt are the lamps as they burn at sec real seconds of an endless loop: set to their
// level then, and in its colour.
func (v Viewer) LampsAt(sec float64) []scene.Lamp { return v.e.lampsAt(sec) }

// Fades tells whether the level of any lamp changes.
func (v Viewer) Fades() bool { return v.e.fades }

// At is how the lens looks at sec real seconds of an endless loop. It needs
// nothing Missing.
func (v Viewer) At(sec float64) Sight {
	w := v.e.view(v.e.at(sec))
	return Sight{Pose: w.pose, Table: w.table, Focus: w.focus, Scale: w.scale}
}

// Posed is how the lens looks with each axis, by its number in the Motion, where a function has
// it; a focus that a hand pulls is as in frame 0. It needs nothing Missing.
func (v Viewer) Posed(position func(axis int) float64) Sight {
	w := v.e.view(v.e.focusedByHand(0, v.e.settingOf(position)))
	return Sight{Pose: w.pose, Table: w.table, Focus: w.focus, Scale: w.scale}
}

package picture

import "seamrail/motion/scene"

// nudge is how far, in mm or degrees, an axis is moved to see what that does: as much as a
// rig may be off, and little enough for the picture to follow it evenly.
const nudge = 0.01

// PerUnit tells how far, in px, the picture moves for each mm or degree that an axis alone
// is off at an instant, at the point where that is most; axes that the picture does not
// show are not in it. It is nil where the scale of the picture is not known. The error, a
// fault.List, is that of Examine.
func PerUnit(m Motion, s scene.Scene, sec float64) (map[string]float64, error) {
	e, err := newEye(m, s)
	if err != nil || !e.scaled() {
		return nil, err
	}
	out := map[string]float64{}
	for _, i := range e.seen() {
		out[e.motion.Axis(i).Name] = e.perUnit(sec, i, nudge) / nudge
	}
	return out, nil
}

package picture

import "seamrail/motion/scene"

// Scale returns how many pixels of the picture a millimetre of the product's
// near face is in frame 0, and whether that is known. A scene with faults has no
// scale.
func Scale(m Motion, s scene.Scene) (perMM float64, ok bool) {
	e, err := newEye(m, s)
	if err != nil || !e.scaled() {
		return 0, false
	}
	q := e.at(0)
	depth := e.depthOf(q)
	if !(depth > 0) {
		return 0, false
	}
	return e.imageAt(q.focus) / depth / e.pitch.Value, true
}

package picture

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"seamrail/motion/base/fault"
	"seamrail/motion/camera/optics"
	"seamrail/motion/scene"
)

// Rewriter is a Motion of a shot that was read from its file: what is tried for it is what
// the file would then be.
type Rewriter interface {
	// With is the motion and the scene of the file with such values; false where it
	// makes no sense then, or the rig cannot do it.
	With(edits ...fault.Edit) (Motion, scene.Scene, bool)
	// Less are values with which an axis goes so much less of its way, those to be tried
	// first before others; none where the file has none.
	Less(axis int, share float64) [][]fault.Edit
	// Loops tells whether the file says how long its loop is, or the rig's pace does.
	Loops() bool
}

// typed is a number as a file has it.
func typed(v float64, unit string) string {
	const grain = 1e4 // finer than anyone sets or types
	text := strconv.FormatFloat(math.Round(v*grain)/grain, 'f', -1, 64)
	if unit == "" {
		return text
	}
	return text + " " + unit
}

// of is the key of a table of a list, from 0.
func of(list string, i int, key string) string { return fmt.Sprintf("%s[%d].%s", list, i+1, key) }

const lamps = "scene.lamps"

// focused adds what the file says where the lens is focused at u mm: by the words that it
// has for that. Where the camera stood where that was in focus, it says where that is.
func (e *eye) focused(m *remedy, u float64) {
	l := e.given.Lens
	if l.Pull != nil {
		return // no value takes a pull away
	}
	if l.Magnification.Given {
		const digits = 6 // of a magnification; a hundredth of a mm of focus takes four
		m.as("camera.magnification", round(optics.Magnification(e.focal.Value, u), digits))
	}
	if l.Focus.Given || !l.Magnification.Given {
		m.as("camera.focus", typed(u, "mm"))
	}
	if d := e.scene.Stand.Distance; !e.flat && !e.given.Stand.Distance.Given && !m.says(distance) {
		m.as(distance, typed(d.Value, "mm"))
	}
}

const distance = "scene.distance"

// says tells whether a remedy has a value for a path.
func (m *remedy) says(path string) bool {
	return slices.ContainsFunc(m.edits, func(e fault.Edit) bool { return e.Path == path })
}

// backed adds what the file says where the camera stands so much farther back. Where it
// does not say how the lens is focused, that follows.
func (e *eye) backed(m *remedy, by float64) {
	if l := e.given.Lens; !l.Focus.Given && !l.Magnification.Given {
		m.on |= ofFocus
	}
	const grain = 10 // parts of a mm that a stand is set to
	m.as(distance, typed(math.Ceil((e.scene.Stand.Distance.Value+by)*grain-blurSlack)/grain, "mm"))
}

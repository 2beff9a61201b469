package picture

import (
	"math"
	"slices"
	"strings"

	"seamrail/motion/scene"

	"seamrail/motion/camera/light"
)

// balanced is a remedy with the light made up for, by the sensitivity, or by a filter
// Lights no lower one is marked.
func (t *trials) balanced(m remedy, after Verdict) (remedy, bool) {
	stops, ok := after.Figure(stopsFigure) // which the light alone has
	iso := t.e.scene.Camera.ISO
	if !ok || !iso.Given {
		return m, false
	}
	want, change := iso.Value*math.Exp2(stops), m.scene
	if marked := light.AtLeastISO(want); stops > 0 && marked <= maxISO || marked < iso.Value && marked*(1-t.e.bounds.Stops/2) <= want {
		m.words = with(m.words, "ISO "+round(marked, 4))
		m.also("camera.iso", round(marked, 4))
		m.scene = func(s *scene.Scene) { apply(change, s); s.Camera.ISO = scene.Is(marked) }
	} else {
		density := math.Max(0, filterFor(-stops))
		if density == 0 {
			return m, false
		}
		all := t.e.scene.Lens.Density.Or(0) + density
		m.words = with(m.words, filterText(all))
		m.also("camera.neutral-density", typed(all, ""))
		m.scene = func(s *scene.Scene) { apply(change, s); s.Lens.Density = scene.Is(all) }
	}
	m.on |= ofLight
	return m, true
}

// also adds a value to those that a remedy has; one that is for a hand stays so.
func (m *remedy) also(path, text string) {
	if len(m.edits) > 0 {
		m.edits = slices.Clip(m.edits)
		m.as(path, text)
	}
}

// with adds to the words of a change.
func with(words, more string) string {
	if strings.Contains(words, " with ") {
		return words + " and " + more
	}
	return words + " with " + more
}

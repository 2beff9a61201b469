package picture

import (
	"math"

	"seamrail/motion/scene"

	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/base/unit"
	"seamrail/motion/camera/pose"
)

// tryAim adds a camera that looks at the product's middle in frame 0.
func (e *eye) tryAim(v *Verdict) {
	q := e.at(0)
	way := r3.Sub(e.scene.Product.Middle(q.table), e.pose(q).At)
	pan := math.Round(math.Atan2(-way.X, way.Y)*180/math.Pi - q.pan)
	tilt := math.Round(math.Atan2(way.Z, math.Hypot(way.X, way.Y))*180/math.Pi - q.tilt)
	words := "the camera panned " + aim(pan, "left", "right") + " and tilted " + aim(tilt, "up", "down")
	turn := func(s *scene.Scene) { s.Stand.Pan, s.Stand.Tilt = scene.Is(pan), scene.Is(tilt) }
	aimed := func(m *remedy) *remedy {
		return m.as("scene.pan", typed(pan, "deg")).as("scene.tilt", typed(tilt, "deg"))
	}
	aimed(v.try(ofPlace, turn, "%s", words))
	face, ok := e.scene.Product.Face(q.table, e.pose(q).At)
	if _, _, u := pose.NewPose(e.pose(q).At, pan+q.pan, tilt+q.tilt).See(face); ok && e.focusable() && u > e.focal.Value {
		u = math.Round(u)
		e.focused(aimed(v.try(ofPlace|ofFocus, func(s *scene.Scene) { turn(s); refocused(s, u) }, "%s, focused at %s", words, unit.Format(u, unit.Length))), u)
	}
}

// aim says an angle with its side.
func aim(angle float64, over, under string) string {
	if angle < 0 {
		over = under
	}
	return round(math.Abs(angle), 3) + " deg " + over
}

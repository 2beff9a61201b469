package preview

import (
	"math"

	"seamrail/plot/preview/internal/canvas"
)

// wallHeight is the tangent of the angle above the horizon at which the wall is
// as dark as it gets, and benchDepth after how many mm behind the lens' own
// distance from the table the bench is half as pale as at the horizon.
const (
	wallHeight = 0.45
	benchDepth = 500.0
)

// softest is the least half-width of the horizon, in px: where bench and wall
// meet, a studio has a curve and no edge.
const softest = 1.5

// ground paints the bench, which has no end, the wall, and where they meet.
// Both change from row to row only: the camera is never tilted sideways.
func (m *room) ground() {
	e := &m.eye
	horizon := e.horizon()
	soft := softest + e.blur(math.Inf(1), m.iris)/2
	for y := range m.high {
		row := float64(y) + 0.5
		t := (e.middle.Y - row) / e.scale
		below := (row - horizon) / soft
		switch {
		case below >= 1:
			m.canvas.Row(y, m.dim(m.bench(t)))
		case below <= -1:
			m.canvas.Row(y, m.dim(wall((horizon-row)/e.scale)))
		default:
			share := (below + 1) / 2
			m.canvas.Row(y, m.dim(wallLow.Toward(benchFar, share*share*(3-2*share))))
		}
	}
}

func wall(above float64) canvas.Light {
	share := math.Min(1, above/wallHeight)
	return wallLow.Toward(wallHigh, share*(2-share))
}

// bench is what is seen at a tangent t above the lens axis, where that meets
// the bench.
func (m *room) bench(t float64) canvas.Light {
	p := m.eye.Pose
	down := -(p.Forward.Z + t*p.Up.Z)
	level := math.Hypot(p.Forward.X, p.Forward.Y)
	on := level - t*p.Forward.Z
	high := p.At.Z + m.set.table.thick
	if down <= 0 || high <= 0 {
		return benchFar
	}
	away := math.Max(0, high*on/down)
	return benchNear.Toward(benchFar, away/(away+benchDepth))
}

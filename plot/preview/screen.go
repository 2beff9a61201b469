package preview

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/picture"
	"seamrail/motion/space"
	"seamrail/plot/preview/internal/canvas"
)

// screen is a flat thing that stands and may hide what is behind it: a board
// with a hole, or the dark.
type screen struct {
	middle   r3.Vec
	contours [][]r3.Vec // the board, and its hole the other way round
	paint    canvas.Light
}

// screens are the boards and the dark whose size is known.
func screens(s picture.Scene) []screen {
	var out []screen
	for _, h := range s.Holes {
		if h.Diameter.Given {
			out = append(out, board(h))
		}
	}
	if d := s.Dark; d != nil && d.Width.Given && d.Height.Given {
		out = append(out, screen{d.Centre, [][]r3.Vec{sheet(d.Centre, 0, d.Width.Value/2, d.Height.Value/2)}, black})
	}
	return out
}

// boardShare is how wide a board is that nobody measured, in diameters of its
// hole.
const boardShare = 3.0

func board(h picture.Hole) screen {
	half := math.Max(h.Board, boardShare*h.Diameter.Value) / 2
	around := make([]r3.Vec, ringPieces)
	right := space.Direction(h.Heading-90, 0)
	for i := range around {
		s, c := math.Sincos(-2 * math.Pi * float64(i) / ringPieces)
		side := r3.Scale(h.Diameter.Value/2*c, right)
		around[i] = r3.Add(h.Centre, r3.Vec{X: side.X, Y: side.Y, Z: h.Diameter.Value / 2 * s})
	}
	return screen{h.Centre, [][]r3.Vec{sheet(h.Centre, h.Heading, half, half), around}, boardPaint}
}

// sheet is an upright rectangle that looks along a heading.
func sheet(middle r3.Vec, heading, half, high float64) []r3.Vec {
	right := r3.Scale(half, space.Direction(heading-90, 0))
	up := r3.Vec{Z: high}
	low, top := r3.Sub(middle, up), r3.Add(middle, up)
	return []r3.Vec{r3.Sub(low, right), r3.Add(low, right), r3.Add(top, right), r3.Sub(top, right)}
}

// beyond tells whether a screen stands behind the axis of the table.
func (m *room) beyond(s screen) bool { return m.eye.local(s.middle).Z > m.eye.local(r3.Vec{}).Z }

// hide paints the screens on one side of the table's axis, the farthest first.
func (m *room) hide(beyond bool) {
	last := math.Inf(1)
	for range m.set.screens {
		next, depth := -1, -1.0
		for i, s := range m.set.screens {
			if z := m.eye.local(s.middle).Z; m.beyond(s) == beyond && z < last && z > depth {
				next, depth = i, z
			}
		}
		if next < 0 {
			return
		}
		last = depth
		m.begin()
		for _, c := range m.set.screens[next].contours {
			m.add(c)
		}
		m.fill(m.set.screens[next].paint, 1)
	}
}

package preview

import (
	"cmp"
	"math"
	"slices"

	"seamrail/motion/scene"

	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/camera/pose"
	"seamrail/plot/preview/internal/canvas"
)

// screen is a flat thing that stands and may hide what is behind it: a board
// with a hole, or the dark.
type screen struct {
	middle   r3.Vec
	contours [][]r3.Vec // the board, and its hole the other way round
	paint    canvas.Light
}

// screens are the boards and the dark whose size is known. A board that stands in
// the dark is a piece of it with a hole through both.
func screens(s scene.Scene) []screen {
	var out []screen
	var dark *screen
	if d := s.Dark; d != nil && d.Width.Given && d.Height.Given {
		dark = &screen{d.Centre, [][]r3.Vec{sheet(d.Centre, 0, d.Width.Value/2, d.Height.Value/2)}, black}
	}
	for _, h := range s.Holes {
		if !h.Diameter.Given {
			continue
		}
		b := board(h)
		if dark != nil && inDark(h, *s.Dark) {
			b.paint = black
			if half := h.Diameter.Value / 2; math.Abs(h.Centre.X-dark.middle.X)+half <= s.Dark.Width.Value/2 &&
				math.Abs(h.Centre.Z-dark.middle.Z)+half <= s.Dark.Height.Value/2 {
				dark.contours = append(dark.contours, b.contours[1])
			}
		}
		out = append(out, b)
	}
	if dark != nil {
		out = append(out, *dark)
	}
	return out
}

// darkSlack is how far off the plane of the dark, in mm, the face of a board may be
// that is one with it: what a tape measure tells apart.
const darkSlack = 1.0

// inDark tells whether a board stands in the dark, looking the same way.
func inDark(h scene.Hole, d scene.Dark) bool {
	return math.Abs(math.Sin(h.Heading*math.Pi/180)) < 1e-6 && math.Abs(h.Centre.Y-d.Centre.Y) <= h.Thickness/2+darkSlack
}

// boardShare is how wide a board is that nobody measured, in diameters of its
// hole.
const boardShare = 3.0

func board(h scene.Hole) screen {
	half := math.Max(h.Board, boardShare*h.Diameter.Value) / 2
	around := make([]r3.Vec, ringPieces)
	right := pose.Direction(h.Heading-90, 0)
	for i := range around {
		s, c := math.Sincos(-2 * math.Pi * float64(i) / ringPieces)
		side := r3.Scale(h.Diameter.Value/2*c, right)
		around[i] = r3.Add(h.Centre, r3.Vec{X: side.X, Y: side.Y, Z: h.Diameter.Value / 2 * s})
	}
	return screen{h.Centre, [][]r3.Vec{sheet(h.Centre, h.Heading, half, half), around}, boardPaint}
}

// sheet is an upright rectangle that looks along a heading.
func sheet(middle r3.Vec, heading, half, high float64) []r3.Vec {
	right := r3.Scale(half, pose.Direction(heading-90, 0))
	up := r3.Vec{Z: high}
	low, top := r3.Sub(middle, up), r3.Add(middle, up)
	return []r3.Vec{r3.Sub(low, right), r3.Add(low, right), r3.Add(top, right), r3.Sub(top, right)}
}

// beyond tells whether a screen stands behind the axis of the table.
func (m *room) beyond(s screen) bool { return m.eye.local(s.middle).Z > m.eye.local(r3.Vec{}).Z }

// hide paints the screens on one side of the table's axis, the farthest first, and
// of those that are as far as each other in their order.
func (m *room) hide(beyond bool) {
	m.order = m.order[:0]
	for i, s := range m.set.screens {
		if m.beyond(s) == beyond {
			m.order = append(m.order, i)
		}
	}
	slices.SortStableFunc(m.order, func(i, j int) int {
		return cmp.Compare(m.eye.local(m.set.screens[j].middle).Z, m.eye.local(m.set.screens[i].middle).Z)
	})
	for _, i := range m.order {
		m.begin()
		for _, c := range m.set.screens[i].contours {
			m.add(c)
		}
		m.fill(m.dim(m.set.screens[i].paint), 1)
	}
}

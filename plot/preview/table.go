package preview

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/camera/pose"
)

// disc is the turntable, its top at 0.
type disc struct {
	radius, thick float64
	rim           []r3.Vec // of its top, counter-clockwise
	sides         []plate  // of its side, painted as they are lit: they do not turn
}

// The table nobody described: it reaches beyond all that the product sweeps by
// this share and so many mm, and is as thick.
const (
	tableShare = 0.16
	tableMore  = 8.0
	tableThick = 9.0
)

// ringPieces is in how many straight pieces a circle is drawn.
const ringPieces = 96

func ring(radius, z float64) []r3.Vec {
	out := make([]r3.Vec, ringPieces)
	for i := range out {
		s, c := math.Sincos(2 * math.Pi * float64(i) / ringPieces)
		out[i] = r3.Vec{X: radius * c, Y: radius * s, Z: z}
	}
	return out
}

// side is the side of the table as plates.
func (s *stage) side(t disc) []plate {
	out := make([]plate, len(t.rim))
	low := r3.Vec{Z: -t.thick}
	for i, a := range t.rim {
		b := t.rim[(i+1)%len(t.rim)]
		normal := r3.Unit(r3.Vec{X: a.X + b.X, Y: a.Y + b.Y})
		out[i] = plate{contours: [][]r3.Vec{{r3.Add(a, low), r3.Add(b, low), b, a}}, normal: normal, paint: tableSide.Times(s.lit(normal))}
	}
	return out
}

// The marks on the table: at least so many, and as many to each face of the
// product, so that the table looks the same when the product does.
const (
	minMarks = 24
	markWide = 1.1 // mm
)

// tableMarks are strokes at the rim, a longer one for each face.
func tableMarks(symmetry int, radius float64) [][]r3.Vec {
	per := (minMarks + symmetry - 1) / symmetry
	out := make([][]r3.Vec, 0, symmetry*per)
	for i := range symmetry * per {
		inner, half := 0.95, markWide/2
		if i%per == 0 {
			inner, half = 0.88, markWide
		}
		stroke := []r3.Vec{{X: half, Y: -0.98 * radius}, {X: half, Y: -inner * radius}, {X: -half, Y: -inner * radius}, {X: -half, Y: -0.98 * radius}}
		for k := range stroke {
			stroke[k] = pose.Turned(stroke[k], 360*float64(i)/float64(symmetry*per))
		}
		out = append(out, stroke)
	}
	return out
}

// topLit is how bright the table's top is painted. It is not worked out from
// the lamps: what lies flat would drown in its own brightness under one that
// hangs high.
const topLit = 0.92

// tabletop paints the turntable: its side, its top and the marks on it.
func (m *room) tabletop() {
	sides := m.set.table.sides
	for i, side := range sides {
		if !m.sees(side) {
			continue
		}
		m.begin()
		if i+1 < len(sides) && m.sees(sides[i+1]) {
			m.add(m.joined(side, sides[i+1]))
		} else {
			m.add(side.contours[0])
		}
		m.fill(side.paint, 1)
	}
	if m.eye.Pose.At.Z <= 0 {
		return
	}
	m.begin()
	m.add(m.set.table.rim)
	m.fill(m.dim(tableTop.Times(topLit)), 1)
	m.begin()
	for _, s := range m.set.marks {
		m.addTurned(s)
	}
	m.fill(m.dim(tableMark.Times(topLit)), 1)
}

// sees tells whether the lens sees a plate that does not turn.
func (m *room) sees(p plate) bool { return m.faces(p.contours[0][0], p.normal) }

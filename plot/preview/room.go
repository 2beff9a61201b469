package preview

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/camera/pose"
	"seamrail/plot/preview/internal/canvas"
)

// room is where one frame is painted.
type room struct {
	*Finder
	set    *stage // as it is lit
	canvas *canvas.Canvas
	film   *canvas.Film
	eye    eye
	dark   []shadow // of the frame in hand
	// What is used again for every polygon.
	spots []canvas.Point
	ends  []int    // of each contour in spots
	ring  []r3.Vec // a contour as the table stands
	joint []r3.Vec
	lists [][]canvas.Point
	order []int // of screens

	scores []scored // of the frame in hand
}

func newRoom(f *Finder) *room {
	return &room{Finder: f, set: &f.set, canvas: canvas.New(f.wide, f.high), film: canvas.NewFilm(f.wide, f.high)}
}

// paint paints one picture, the farthest things first.
func (m *room) paint(e eye) {
	m.eye = e
	m.ground()
	m.hide(true)
	m.tabletop()
	m.shade()
	m.product()
	m.hide(false)
}

// turned is a place of the stage with the table as it stands.
func (e *eye) turned(p r3.Vec) r3.Vec { return pose.Turned(p, e.Table) }

// begin begins a new fill.
func (m *room) begin() { m.spots, m.ends = m.spots[:0], m.ends[:0] }

// add adds a contour to the fill.
func (m *room) add(contour []r3.Vec) {
	m.spots = m.eye.see(m.spots, contour)
	m.ends = append(m.ends, len(m.spots))
}

// addTurned adds a contour of the stage that turns with the table.
func (m *room) addTurned(contour []r3.Vec) {
	m.ring = m.ring[:0]
	s, c := math.Sincos(m.eye.Table * math.Pi / 180)
	for _, p := range contour {
		m.ring = append(m.ring, r3.Vec{X: c*p.X - s*p.Y, Y: s*p.X + c*p.Y, Z: p.Z})
	}
	m.add(m.ring)
}

// fill paints what was added.
func (m *room) fill(l canvas.Light, opacity float32) {
	m.lists = m.lists[:0]
	from := 0
	for _, to := range m.ends {
		if to > from {
			m.lists = append(m.lists, m.spots[from:to])
		}
		from = to
	}
	m.canvas.Fill(l, opacity, m.lists...)
}

// faces tells whether the lens sees the outside of a plane through p.
func (m *room) faces(p, normal r3.Vec) bool { return r3.Dot(normal, r3.Sub(m.eye.Pose.At, p)) > 0 }

// product paints the product: first all of its skin at once, so that no gap
// shows where two plates meet, then each plate as it is lit. The sides come in
// their order as the lens sees them, so that what looks alike is painted alike.
func (m *room) product() {
	m.plates(m.set.solid.post)
	m.begin()
	m.skin(m.set.solid.lids)
	for _, side := range m.set.solid.sides {
		m.skin(side)
	}
	m.fill(m.dim(bodyEdge), 1)
	m.plates(m.set.solid.lids)
	m.engrave(len(m.set.solid.sides))
	first := m.firstSide()
	for i := range m.set.solid.sides {
		side := (first + i) % len(m.set.solid.sides)
		m.plates(m.set.solid.sides[side])
		m.engrave(side)
	}
}

// skin adds the skin that the lens sees to the fill.
func (m *room) skin(plates []plate) {
	for _, p := range plates {
		if p.skin && m.shows(p) {
			m.addTurned(p.contours[0])
		}
	}
}

// firstSide is the leftmost side that the lens sees: the one before it is hidden.
func (m *room) firstSide() int {
	sides := m.set.solid.sides
	for i, side := range sides {
		before := sides[(i+len(sides)-1)%len(sides)]
		if slices.ContainsFunc(side, m.shows) && !slices.ContainsFunc(before, m.shows) {
			return i
		}
	}
	return 0
}

// plates paints plates curve by curve.
func (m *room) plates(all []plate) {
	for from := 0; from < len(all); {
		to := from + 1
		for all[to-1].bent {
			to++
		}
		m.curve(all[from:to])
		from = to
	}
}

// curve paints plates that make one curve, from left to right. Each reaches
// below the next, so that no gap shows between them.
func (m *room) curve(plates []plate) {
	for i, p := range plates {
		if !m.shows(p) {
			continue
		}
		m.begin()
		if i+1 < len(plates) && m.shows(plates[i+1]) {
			m.addTurned(m.joined(p, plates[i+1]))
		} else {
			for _, c := range p.contours {
				m.addTurned(c)
			}
		}
		m.fill(p.paint.Times(m.lit(p)), 1)
	}
}

// joined is the outline of two plates of a curve. Theirs begin at the lower left
// corner.
func (m *room) joined(p, next plate) []r3.Vec {
	a, b := p.contours[0], next.contours[0]
	m.joint = append(m.joint[:0], a[0], a[1], b[1], b[2], a[2], a[3])
	return m.joint
}

// lit is how bright a plate is as the table stands.
func (m *room) lit(p plate) float64 { return m.set.lit(m.eye.turned(p.normal)) }

// shows tells whether the lens sees a plate.
func (m *room) shows(p plate) bool {
	return len(p.contours) > 0 && m.faces(m.eye.turned(p.contours[0][0]), m.eye.turned(p.normal))
}

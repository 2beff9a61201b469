package preview

import (
	"math"

	"seamrail/motion/scene"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/plot/preview/internal/canvas"
)

// plate is a flat piece of a surface, with the table at 0.
type plate struct {
	contours [][]r3.Vec // counter-clockwise seen from outside; holes the other way
	normal   r3.Vec
	paint    canvas.Light
	skin     bool // a part of the solid's surface, not laid upon one
	bent     bool // goes on in the next plate, at the angle of a curve
}

// patch is a part of the product's side between two uprights, across from 0 to
// 1 from left to right as seen from outside.
type patch struct {
	at     func(across float64) r2.Vec // seen from above
	normal func(across float64) r2.Vec
	width  float64 // mm along it
	pieces int     // flat ones that draw it
}

// roundPieces is in how many flat pieces a cylinder is drawn: the corners of so
// many miss the circle by under 1 part in 1000, a fifth of a pixel.
const roundPieces = 72

// roundMarks is the least number of patches on a cylinder, so that its turning
// shows.
const roundMarks = 6

// patches divides the side of the product. Patches of the same number, counted
// by how many there are to a period, look alike.
func patches(p scene.Product) (out []patch, period int) {
	o, _ := p.Outline()
	k := p.Symmetry()
	if len(o.Points) == 1 {
		per := (roundMarks + k - 1) / k
		return arcs(o.Points[0], o.Round, k*per, p.Facing), per
	}
	n := len(o.Points)
	for i := range n {
		out = append(out, chord(o.Points[i], o.Points[(i+1)%n]))
	}
	if p.Shape == scene.Prism { // the side that looks at the camera lies last
		out = append(out[n-1:], out[:n-1]...)
	}
	return out, n / gcd(n, k)
}

func chord(a, b r2.Vec) patch {
	along := r2.Sub(b, a)
	normal := r2.Unit(r2.Vec{X: along.Y, Y: -along.X})
	return patch{
		at:     func(t float64) r2.Vec { return r2.Add(a, r2.Scale(t, along)) },
		normal: func(float64) r2.Vec { return normal },
		width:  r2.Norm(along), pieces: 1,
	}
}

// arcs divides a circle into n patches, the middle of the first towards the
// camera.
func arcs(middle r2.Vec, radius float64, n int, facing float64) []patch {
	out := make([]patch, n)
	for i := range out {
		way := func(t float64) r2.Vec {
			s, c := math.Sincos((-90 + facing + 360*(float64(i)+t-0.5)/float64(n)) * math.Pi / 180)
			return r2.Vec{X: c, Y: s}
		}
		out[i] = patch{
			at:     func(t float64) r2.Vec { return r2.Add(middle, r2.Scale(radius, way(t))) },
			normal: way, width: 2 * math.Pi * radius / float64(n), pieces: max(1, (roundPieces+n-1)/n),
		}
	}
	return out
}

// cut is the plates of a part of the patch, between two uprights and two
// heights.
func (p patch) cut(left, right, low, high float64, paint canvas.Light, skin bool) []plate {
	var out []plate
	for i := range p.pieces {
		a := left + (right-left)*float64(i)/float64(p.pieces)
		b := left + (right-left)*float64(i+1)/float64(p.pieces)
		p0, p1, n := p.at(a), p.at(b), p.normal((a+b)/2)
		out = append(out, plate{
			contours: [][]r3.Vec{{{X: p0.X, Y: p0.Y, Z: low}, {X: p1.X, Y: p1.Y, Z: low}, {X: p1.X, Y: p1.Y, Z: high}, {X: p0.X, Y: p0.Y, Z: high}}},
			normal:   r3.Vec{X: n.X, Y: n.Y}, paint: paint, skin: skin, bent: i+1 < p.pieces,
		})
	}
	return out
}

// lid is the top of the product, or its foot.
func lid(around []patch, z, way float64, paint canvas.Light) plate {
	var ring []r3.Vec
	for _, p := range around {
		for i := range p.pieces {
			q := p.at(float64(i) / float64(p.pieces))
			ring = append(ring, r3.Vec{X: q.X, Y: q.Y, Z: z})
		}
	}
	if way < 0 {
		for i, j := 0, len(ring)-1; i < j; i, j = i+1, j-1 {
			ring[i], ring[j] = ring[j], ring[i]
		}
	}
	return plate{contours: [][]r3.Vec{ring}, normal: r3.Vec{Z: way}, paint: paint, skin: true}
}

// The rim around the pane of each face, as a share of the shorter of its width
// and the product's height, and the height of its number, as a share of the
// pane's.
const (
	rim         = 0.1
	numberShare = 0.42
)

// solid is the product as plates: its top and its foot, and what makes up each
// patch of its side, in order round it.
type solid struct {
	post  []plate // below a foot that is off the table
	lids  []plate
	sides [][]plate
	// engraved are the lines on each side, and last those on the top.
	engraved [][]score
}

// newSolid gives each patch its skin and on it a pane, with a number where not
// all patches look alike.
func newSolid(p scene.Product) solid {
	around, period := patches(p)
	low, high := p.Base, p.Base+p.Height.Or(0)
	out := solid{post: newPost(p, around), engraved: engravings(around, low, high), lids: []plate{lid(around, high, 1, body), lid(around, low, -1, body)}}
	for i, face := range around {
		kind := i % period
		edge := rim * math.Min(face.width, high-low)
		side := face.cut(0, 1, low, high, body, true)
		side = append(side, face.cut(edge/face.width, 1-edge/face.width, low+edge, high-edge, toned(kind, period), false)...)
		if period > 1 {
			side = append(side, face.number(kind+1, (low+high)/2, math.Min(numberShare*(high-low-2*edge), 0.8*face.width)))
		}
		out.sides = append(out.sides, side)
	}
	return out
}

// postShare is how wide the post is that a product stands on whose foot is off
// the table, in widths of a face: nobody described it.
const postShare = 0.3

func newPost(p scene.Product, around []patch) []plate {
	if p.Base <= 0 {
		return nil
	}
	wide := around[0].width
	for _, q := range around {
		wide = math.Min(wide, q.width)
	}
	return arcs(p.Offset, postShare*wide, 1, 0)[0].cut(0, 1, 0, p.Base, post, false)
}

// toned is the pane of one kind of patch among so many: neighbours differ, by
// the golden ratio.
func toned(kind, of int) canvas.Light {
	if of == 1 {
		return pane
	}
	_, share := math.Modf(float64(kind) * (math.Sqrt(5) - 1) / 2)
	return pane.Times(1 - 0.55*share)
}

// number is a number upright on the patch, about a height and so high.
func (p patch) number(n int, middle, high float64) plate {
	out := plate{paint: ink}
	for _, c := range digits(n) {
		contour := make([]r3.Vec, len(c))
		for i, q := range c {
			at := p.at(0.5 + q.X*high/p.width)
			contour[i] = r3.Vec{X: at.X, Y: at.Y, Z: middle + q.Y*high}
		}
		out.contours = append(out.contours, contour)
	}
	normal := p.normal(0.5)
	out.normal = r3.Vec{X: normal.X, Y: normal.Y}
	return out
}

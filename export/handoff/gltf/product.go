package gltf

import (
	"math"

	"seamrail/motion/scene"

	"github.com/qmuntal/gltf"
	"github.com/qmuntal/gltf/modeler"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// around is in how many faces a cylinder is cut: at 48 its outline is off by
// a five-hundredth of its radius.
const around = 48

// addProduct adds the product as a solid of flat faces, with the table at 0
// degrees, and tells whether its size is known.
func (d document) addProduct(p scene.Product) (int, bool) {
	outline, ok := corners(p)
	if !ok || !p.Height.Given {
		return 0, false
	}
	s := solidOf(outline, p.Base, p.Base+p.Height.Value)
	d.Materials = append(d.Materials, brass())
	d.Meshes = append(d.Meshes, &gltf.Mesh{Name: "product", Primitives: []*gltf.Primitive{{
		Attributes: gltf.PrimitiveAttributes{
			gltf.POSITION: modeler.WritePosition(d.Document, s.points), gltf.NORMAL: modeler.WriteNormal(d.Document, s.normals),
		},
		Indices: gltf.Index(modeler.WriteIndices(d.Document, s.triangles)), Material: gltf.Index(len(d.Materials) - 1),
	}}})
	return len(d.Meshes) - 1, true
}

// brass stands for any material.
func brass() *gltf.Material {
	metal, rough := 1.0, 0.4
	return &gltf.Material{Name: "stand-in", PBRMetallicRoughness: &gltf.PBRMetallicRoughness{
		BaseColorFactor: &[4]float64{0.72, 0.54, 0.24, 1}, MetallicFactor: &metal, RoughnessFactor: &rough,
	}}
}

// corners are those of the product from above, counter-clockwise, in mm.
func corners(p scene.Product) ([]r2.Vec, bool) {
	o, ok := p.Outline()
	if !ok {
		return nil, false
	}
	if len(o.Points) > 1 {
		return o.Points, true
	}
	out := make([]r2.Vec, around)
	for i := range out {
		s, c := math.Sincos(2 * math.Pi * float64(i) / around)
		out[i] = r2.Vec{X: o.Points[0].X + o.Round*c, Y: o.Points[0].Y + o.Round*s}
	}
	return out, true
}

// solid is a solid's faces as triangles, counter-clockwise from outside.
type solid struct {
	points, normals [][3]float32 // m
	triangles       []uint32
}

// solidOf stands an outline up from low to high, in mm.
func solidOf(outline []r2.Vec, low, high float64) *solid {
	s := &solid{}
	n := len(outline)
	lid, foot := make([]r3.Vec, n), make([]r3.Vec, n)
	for i, a := range outline {
		lid[i], foot[n-1-i] = r3.Vec{X: a.X, Y: a.Y, Z: high}, r3.Vec{X: a.X, Y: a.Y, Z: low}
	}
	s.face(r3.Vec{Z: 1}, lid)
	s.face(r3.Vec{Z: -1}, foot)
	for i, a := range lid {
		b := lid[(i+1)%n]
		drop := r3.Vec{Z: low - high}
		s.face(r3.Unit(r3.Vec{X: b.Y - a.Y, Y: a.X - b.X}), []r3.Vec{a, r3.Add(a, drop), r3.Add(b, drop), b})
	}
	return s
}

// face adds a flat convex face as a fan.
func (s *solid) face(normal r3.Vec, corners []r3.Vec) {
	first := uint32(len(s.points))
	for i, p := range corners {
		s.points = append(s.points, floats(r3.Scale(1.0/metre, upright(p))))
		s.normals = append(s.normals, floats(upright(normal)))
		if i >= 2 {
			s.triangles = append(s.triangles, first, first+uint32(i)-1, first+uint32(i))
		}
	}
}

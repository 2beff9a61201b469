package page

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/base/unit"
	"seamrail/motion/camera/picture"
	"seamrail/motion/scene"
)

// minDistance, in mm, keeps what is dragged from being nowhere.
const minDistance = 1

const halfTurn = 180

// productDrag moves the table with the product. Everything else stays where it is in the
// room, and since the shot tells places from the table's axis, its numbers change.
func productDrag(s scene.Scene) (Drag, bool) {
	if !s.Stand.Distance.Given {
		return Drag{}, false
	}
	from := r2.Vec{X: s.Stand.Aside.Or(0), Y: s.Stand.Distance.Value}
	paths := []string{"scene.distance", "scene.aside"}
	return Drag{
		Path: abovePath + "product", Paths: paths, Kind: "product", Label: "product and table",
		Told: place(from.Y, unit.Length) + " from the lens" + sideways(-from.X),
		to: func(v r2.Vec) []Set {
			v.Y = math.Max(v.Y, minDistance-from.Y)
			out := []Set{{paths[0], place(from.Y+v.Y, unit.Length)}, {paths[1], place(from.X-v.X, unit.Length)}}
			return append(out, staying(s, r3.Vec{X: v.X, Y: v.Y})...)
		}}, true
}

// sideways says how far right of the lens something is, nothing where it is straight on.
func sideways(mm float64) string {
	text := place(math.Abs(mm), unit.Length)
	switch {
	case text == place(0, unit.Length):
		return ""
	case mm < 0:
		return ", " + text + " to the left"
	}
	return ", " + text + " to the right"
}

// staying are the numbers of all that stays in its place while the product moves.
func staying(s scene.Scene, by r3.Vec) []Set {
	var out []Set
	for i, l := range s.Lamps {
		if l.Distance.Given {
			at := r3.Sub(r3.Scale(l.Distance.Value, l.Toward()), by)
			out = append(out, lampAt(i, l, at)...)
		}
	}
	for i, h := range s.Holes {
		out = append(out, centreAt(holePath(i), h.Centre, r3.Sub(h.Centre, by))...)
	}
	if s.Dark != nil {
		out = append(out, centreAt(darkPath, s.Dark.Centre, r3.Sub(s.Dark.Centre, by))...)
	}
	return out
}

// changed is a value where the file would have another than before.
func changed(path string, was, is float64, dim unit.Dimension) []Set {
	if text := place(is, dim); text != place(was, dim) {
		return []Set{{path, text}}
	}
	return nil
}

func lampPath(i int) string { return fmt.Sprintf("scene.lamps[%d]", i+1) }

// lampAt are the numbers of lamp i that put it there, from the product's middle.
func lampAt(i int, l scene.Lamp, at r3.Vec) []Set {
	distance, level := math.Max(r3.Norm(at), minDistance), math.Hypot(at.X, at.Y)
	out := changed(lampPath(i)+".distance", l.Distance.Value, distance, unit.Length)
	if level < minDistance {
		return out // over the product every bearing is the same
	}
	out = append(out, changed(lampPath(i)+".bearing", l.Bearing, inDegrees(at.X, -at.Y), unit.Angle)...)
	return append(out, changed(lampPath(i)+".rise", l.Rise, inDegrees(at.Z, level), unit.Angle)...)
}

func inDegrees(y, x float64) float64 { return math.Atan2(y, x) * halfTurn / math.Pi }

// lampDrags are the lamps that are drawn. A lamp keeps its rise: it is dragged over the
// ground, and its distance is along the rise.
func lampDrags(lamps []scene.Lamp, from picture.TopView) []Drag {
	var drawn []r2.Vec
	for _, i := range from.Items {
		if i.Kind == picture.LampItem {
			drawn = append(drawn, i.Points[0])
		}
	}
	var out []Drag
	for i, l := range lamps {
		if !l.Distance.Given {
			continue
		}
		at := drawn[0]
		drawn = drawn[1:]
		over := r3.Scale(l.Distance.Value, l.Toward())
		away := r2.Vec{X: over.X, Y: over.Y}
		if r2.Norm(away) < minDistance {
			continue // it stands where it is aimed
		}
		aim := r2.Sub(at, away)
		out = append(out, Drag{
			Path: fmt.Sprintf("%slamp[%d]", abovePath, i+1), Paths: []string{lampPath(i) + ".distance", lampPath(i) + ".bearing"},
			X: at.X, Y: at.Y, Kind: "lamp", Label: l.Name,
			Told: place(l.Distance.Value, unit.Length) + " away, bearing " + place(l.Bearing, unit.Angle),
			to: func(v r2.Vec) []Set {
				d := r2.Sub(v, aim)
				return lampAt(i, l, r3.Vec{X: d.X, Y: d.Y, Z: r2.Norm(d) * math.Tan(l.Rise*math.Pi/halfTurn)})
			},
		})
	}
	return out
}

const darkPath = "scene.dark"

func holePath(i int) string { return fmt.Sprintf("scene.holes[%d]", i+1) }

// centreAt are the numbers that put the middle of something there, as high as it was.
func centreAt(path string, was, is r3.Vec) []Set {
	return append(changed(path+".centre[1]", was.X, is.X, unit.Length), changed(path+".centre[2]", was.Y, is.Y, unit.Length)...)
}

// openingDrags are the boards that are drawn, by their holes, and the dark.
func openingDrags(s scene.Scene) []Drag {
	var out []Drag
	for i, h := range s.Holes {
		if h.Diameter.Given {
			out = append(out, centreDrag(fmt.Sprintf("hole[%d]", i+1), "hole", h.Called(), holePath(i), h.Centre))
		}
	}
	if s.Dark != nil && s.Dark.Width.Given {
		out = append(out, centreDrag("dark", "dark", "dark surface", darkPath, s.Dark.Centre))
	}
	return out
}

func centreDrag(path, kind, label, key string, at r3.Vec) Drag {
	return Drag{
		Path: abovePath + path, Paths: []string{key + ".centre[1]", key + ".centre[2]"}, X: at.X, Y: at.Y, Kind: kind, Label: label,
		Told: "centre at " + place(at.X, unit.Length) + ", " + place(at.Y, unit.Length),
		to:   func(v r2.Vec) []Set { return centreAt(key, at, r3.Vec{X: v.X, Y: v.Y}) },
	}
}

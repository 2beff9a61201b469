package page

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"seamrail/motion/scene"

	"gonum.org/v1/gonum/spatial/r2"

	"seamrail/cmd/internal/job"
	"seamrail/motion/base/unit"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/picture"
	"seamrail/motion/move"
	"seamrail/motion/spec/shot"
)

// abovePath begins the paths of what can be dragged in the view from above.
const abovePath = "above."

// Item is one thing seen from above, in mm: x right, y away, the table's axis
// at the origin.
type Item struct {
	Kind   string       `json:"kind"`
	End    int          `json:"end"` // 0 or 1 for what belongs to one end of the travel, else -1
	Name   string       `json:"name,omitempty"`
	Label  string       `json:"label,omitempty"`
	Points [][2]float64 `json:"points"`
	Radius float64      `json:"radius,omitempty"` // mm, of a circle about the first point
	Closed bool         `json:"closed,omitempty"`
}

// Drag is something in the view from above that can be dragged.
type Drag struct {
	Path  string   `json:"path"`
	Paths []string `json:"paths"` // the keys of the shot that it changes
	X     float64  `json:"x"`
	Y     float64  `json:"y"`
	Kind  string   `json:"kind"` // "carriage", "product" or "lamp"
	Label string   `json:"label"`

	to func(r2.Vec) []Set
}

// TopView is the scene from above.
type TopView struct {
	Items   []Item     `json:"items"`
	Box     [4]float64 `json:"box"` // left, near, right, far
	Drags   []Drag     `json:"drags"`
	Missing []string   `json:"missing"`
}

// itemKinds names the items, in the order of picture's.
var itemKinds = [...]string{"rail", "lens", "field", "sharp", "product", "swept", "axis", "lamp", "beam", "board", "dark", "distance", "face", "hole"}

// topView is the scene from above; nil where the shot has none that can be drawn.
func topView(p *job.Job) *TopView {
	from, ok := topViewOf(p)
	if !ok || len(from.Items) == 0 {
		return nil
	}
	b := from.Box
	out := &TopView{Items: []Item{}, Box: [4]float64{b.Min.X, b.Min.Y, b.Max.X, b.Max.Y}, Drags: drags(p, from), Missing: texts(from.Missing)}
	for _, i := range from.Items {
		x := Item{Kind: itemKinds[i.Kind], End: i.End, Name: i.Name, Label: i.Label, Radius: i.Radius, Closed: i.Closed}
		for _, v := range i.Points {
			x.Points = append(x.Points, [2]float64{v.X, v.Y})
		}
		out.Items = append(out.Items, x)
	}
	return out
}

func topViewOf(p *job.Job) (picture.TopView, bool) {
	scene, ok := lensview.Scene(p.Shot, p.Rig)
	if !ok {
		return picture.TopView{}, false
	}
	from, err := picture.NewTopView(lensview.Motion(p.Trajectory), scene)
	return from, err == nil
}

func texts(list []string) []string {
	if list == nil {
		return []string{}
	}
	return list
}

// drags are what can be dragged in a scene.
func drags(p *job.Job, from picture.TopView) []Drag {
	out := append([]Drag{}, carriages(p, from)...)
	if d, ok := productDrag(p.Shot); ok {
		out = append(out, d)
	}
	return append(out, lampDrags(p.Shot, from)...)
}

// carriages are the two ends of the only axis that carries the camera there and
// back, or across.
func carriages(p *job.Job, from picture.TopView) []Drag {
	scene := p.Shot.Scene
	if len(from.Lenses) != 2 || len(scene.Stand.Slides) != 1 {
		return nil
	}
	name := scene.Stand.Slides[0].Axis
	m, ok := p.Shot.Axis(name)
	ranging, ranges := m.Does.(move.Ranging)
	if !ok || !ranges {
		return nil
	}
	ends := ranging.Range()
	at := func(k int) r2.Vec { return r2.Vec{X: from.Lenses[k].X, Y: from.Lenses[k].Y} }
	axis := axisIndex(p, name)
	pos := [2]float64{p.Trajectory.Position(axis, from.Ends[0]), p.Trajectory.Position(axis, from.Ends[1])}
	way := r2.Scale(1/(pos[1]-pos[0]), r2.Sub(at(1), at(0)))
	var out []Drag
	for k := range 2 {
		end := ends[0]
		if math.Abs(pos[k]-ends[1].Pos) < math.Abs(pos[k]-end.Pos) {
			end = ends[1]
		}
		out = append(out, Drag{
			Path: fmt.Sprintf("%scarriage[%d]", abovePath, k+1), Paths: paths(name, end.Keys), X: at(k).X, Y: at(k).Y, Kind: "carriage", Label: name + ", " + end.Name,
			to: func(v r2.Vec) []Set {
				along := r2.Dot(r2.Sub(v, at(k)), way) / r2.Norm2(way)
				return sets(name, end.To(within(p, axis, pos[k]+along)))
			},
		})
	}
	return out
}

func paths(axis string, keys []string) []string {
	out := make([]string, len(keys))
	for i, k := range keys {
		out[i] = pathOf(axis, k)
	}
	return out
}

func axisIndex(p *job.Job, name string) int {
	for i := range p.Trajectory.AxisCount() {
		if p.Trajectory.Axis(i).Name == name {
			return i
		}
	}
	return 0
}

// within keeps a place inside the travel of an axis.
func within(p *job.Job, axis int, pos float64) float64 {
	a := p.Trajectory.Axis(axis)
	if a.Endless {
		return pos
	}
	return math.Min(math.Max(pos, a.Min), a.Max)
}

// productDrag moves the table with the product, and leaves the camera where it
// is: what changes is how the camera stands to the table.
func productDrag(s shot.Shot) (Drag, bool) {
	stand := s.Scene.Stand
	if !stand.Distance.Given {
		return Drag{}, false
	}
	paths := []string{"scene.distance", "scene.aside"}
	return Drag{Path: abovePath + "product", Paths: paths, Kind: "product", Label: "product and table",
		to: func(v r2.Vec) []Set {
			far := math.Max(stand.Distance.Value+v.Y, minDistance)
			return []Set{{paths[0], place(far, unit.Length)}, {paths[1], place(stand.Aside.Value-v.X, unit.Length)}}
		}}, true
}

// minDistance, in mm, keeps what is dragged from being nowhere.
const minDistance = 1

// lampDrags are the lamps that are drawn.
func lampDrags(s shot.Shot, from picture.TopView) []Drag {
	var out []Drag
	left := from.Items
	for i, l := range s.Scene.Lamps {
		if !l.Distance.Given {
			continue
		}
		next := slices.IndexFunc(left, func(x picture.Item) bool { return x.Kind == picture.LampItem })
		if next < 0 || next+1 == len(left) {
			break
		}
		at, aim := left[next].Points[0], left[next+1].Points
		left = left[next+1:]
		if left[0].Kind != picture.DistanceItem {
			continue // it stands where it is aimed
		}
		table := fmt.Sprintf("scene.lamps[%d].", i+1)
		out = append(out, Drag{
			Path: fmt.Sprintf("%slamp[%d]", abovePath, i+1), Paths: []string{table + "distance", table + "bearing"},
			X: at.X, Y: at.Y, Kind: "lamp", Label: l.Name, to: lampTo(table, l, aim[1]),
		})
	}
	return out
}

// lampTo keeps a lamp's rise: it is dragged over the ground, and its distance
// is along the rise.
func lampTo(table string, l scene.Lamp, aim r2.Vec) func(r2.Vec) []Set {
	return func(v r2.Vec) []Set {
		d := r2.Sub(v, aim)
		distance := math.Max(r2.Norm(d)/math.Cos(l.Rise*math.Pi/halfTurn), minDistance)
		bearing := math.Atan2(d.X, -d.Y) * halfTurn / math.Pi
		return []Set{{table + "distance", place(distance, unit.Length)}, {table + "bearing", place(bearing, unit.Angle)}}
	}
}

const halfTurn = 180

// draggedAbove turns a drag in the view from above into values.
func draggedAbove(p *job.Job, path string, x, y float64) ([]Set, error) {
	from, ok := topViewOf(p)
	if ok {
		for _, d := range drags(p, from) {
			if d.Path == path {
				return d.to(r2.Vec{X: x, Y: y}), nil
			}
		}
	}
	return nil, fmt.Errorf("%s is nothing that can be dragged", strings.TrimPrefix(path, abovePath))
}

package page

import (
	"gonum.org/v1/gonum/spatial/r2"

	"seamrail/cmd/internal/job"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/picture"
)

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
	Kind  string   `json:"kind"` // "carriage", "product", "lamp", "hole" or "dark"
	Label string   `json:"label"`
	Told  string   `json:"told"` // where it is, in the numbers that a drag changes

	to func(r2.Vec) []Set
}

// TopView is the scene from above.
type TopView struct {
	Items   []Item     `json:"items"`
	Box     [4]float64 `json:"box"`   // left, near, right, far
	Stand   [2]float64 `json:"stand"` // where the lens is with every slide where it was measured
	Drags   []Drag     `json:"drags"`
	Placed  Placed     `json:"placed"`
	Missing []string   `json:"missing"`
}

// Placed is where what moves stands in every so many captured frames, and at the seam.
type Placed struct {
	Every   int64        `json:"every"`
	Way     [][2]float64 `json:"way"`   // of the lens
	Table   []float64    `json:"table"` // degrees that the product has turned since frame 0
	Carried []Carried    `json:"carried"`
}

// Carried is an outline that the camera takes along.
type Carried struct {
	Kind   string         `json:"kind"`
	Closed bool           `json:"closed,omitempty"`
	At     [][][2]float64 `json:"at"`
}

// maxPlaced is how many places of the camera are told of a loop: between two of them, a
// whole circle of half a metre strays by less than a tenth of a millimetre from what is
// drawn, a straight line. Of a glance it is fewer, which stray by a third of one.
const (
	maxPlaced       = 360
	maxPlacedGlance = 90
)

// shownGrains in a mm are finer than anybody sees from above.
const shownGrains = 100

// itemKinds names the items, in the order of picture's.
var itemKinds = [...]string{"rail", "lens", "field", "sharp", "product", "swept", "axis", "lamp", "beam", "board", "dark", "distance", "face", "hole"}

// topView is the scene from above; nil where the shot has none that can be drawn.
func topView(p *job.Job, quick bool) *TopView {
	from, ok := topViewOf(p)
	if !ok || len(from.Items) == 0 {
		return nil
	}
	b := from.Box
	items := listOf(from.Items, func(i picture.Item) Item {
		x := Item{Kind: itemKinds[i.Kind], End: i.End, Name: i.Name, Label: i.Label, Radius: i.Radius, Closed: i.Closed}
		x.Points = listOf(i.Points, onScreen)
		return x
	})
	stand := p.Shot.Scene.Stand
	return &TopView{
		Items: items, Box: [4]float64{b.Min.X, b.Min.Y, b.Max.X, b.Max.Y}, Stand: [2]float64{stand.Aside.Or(0), -stand.Distance.Or(0)},
		Drags: drags(p, from), Placed: placed(p, quick), Missing: append([]string{}, from.Missing...),
	}
}

func onScreen(v r2.Vec) [2]float64 {
	return [2]float64{rounded(v.X, shownGrains), rounded(v.Y, shownGrains)}
}

func placed(p *job.Job, quick bool) Placed {
	most := int64(maxPlaced)
	if quick {
		most = maxPlacedGlance
	}
	out := Placed{Every: p.Trajectory.Captured()/(most+1) + 1, Carried: []Carried{}}
	scene, _ := lensview.Scene(p.Shot, p.Rig)
	at, _ := picture.NewPlaced(lensview.Motion(p.Trajectory), scene, out.Every) // what was drawn can be placed
	out.Way, out.Table = listOf(at.Way, onScreen), listOf(at.Table, drawn)
	for _, c := range at.Carried {
		out.Carried = append(out.Carried, Carried{itemKinds[c.Kind], c.Closed, listOf(c.At, func(points []r2.Vec) [][2]float64 { return listOf(points, onScreen) })})
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

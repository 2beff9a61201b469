package page

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"seamrail/cmd/internal/job"
	"seamrail/motion/base/unit"
	"seamrail/motion/camera/picture"
	"seamrail/motion/move"
	"seamrail/motion/plan"
)

// abovePath begins the paths of what can be dragged in the view from above.
const abovePath = "above."

// drags are what can be dragged in a scene.
func drags(p *job.Job, from picture.TopView) []Drag {
	out := append([]Drag{}, carriages(p, from)...)
	if d, ok := productDrag(*p.Shot.Scene); ok {
		out = append(out, d)
	}
	out = append(out, lampDrags(p.Shot.Scene.Lamps, from)...)
	return append(out, openingDrags(*p.Shot.Scene)...)
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
			Told: place(end.Pos, unit.Length),
			to: func(v r2.Vec) []Set {
				along := r2.Dot(r2.Sub(v, at(k)), way) / r2.Norm2(way)
				return sets(name, end.To(within(p, axis, pos[k]+along)))
			},
		})
	}
	return out
}

func paths(axis string, keys []string) []string {
	return listOf(keys, func(k string) string { return pathOf(axis, k) })
}

func axisIndex(p *job.Job, name string) int {
	return max(0, slices.IndexFunc(p.Plan.Axes, func(a plan.Axis) bool { return a.Rig.Name == name }))
}

// within keeps a place inside the travel of an axis.
func within(p *job.Job, axis int, pos float64) float64 {
	a := p.Trajectory.Axis(axis)
	if a.Endless {
		return pos
	}
	return math.Min(math.Max(pos, a.Min), a.Max)
}

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

package picture

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"seamrail/motion/scene"
)

// Placed is where what moves stands over the loop, seen from above.
type Placed struct {
	Way     []r2.Vec  // of the lens
	Table   []float64 // degrees that the product has turned since frame 0
	Carried []Carried // what the camera takes along
}

// Carried is one outline that goes with the camera.
type Carried struct {
	Kind   ItemKind
	Closed bool
	At     [][]r2.Vec
}

// NewPlaced looks at the scene from above in every so many captured frames, and at the
// seam. It returns an error where NewTopView does, and nothing where no distance is known.
func NewPlaced(m Motion, s scene.Scene, every int64) (Placed, error) {
	e, err := newEye(m, s)
	if err != nil || e.flat {
		return Placed{}, err
	}
	out := Placed{}
	for k := int64(0); k < m.Captured(); k += every {
		out.add(e, e.at(m.FrameSeconds(k).Float()))
	}
	end := e.shownUntil().Float()
	out.add(e, e.focusedByHand(end, e.settingOf(func(i int) float64 { return m.Before(i, end).Pos })))
	for i := range out.Table {
		out.Table[i] -= e.at(0).table
	}
	return out, nil
}

func (p *Placed) add(e *eye, q setting) {
	p.Way, p.Table = append(p.Way, flat(e.pose(q).At)), append(p.Table, q.table)
	var a TopView
	a.camera(e, 0, q)
	a.Items = slices.DeleteFunc(a.Items, func(i Item) bool { return i.Kind == DistanceItem })
	if p.Carried == nil {
		p.Carried = make([]Carried, len(a.Items))
	}
	for n, i := range a.Items {
		c := &p.Carried[n]
		c.Kind, c.Closed, c.At = i.Kind, i.Closed, append(c.At, i.Points)
	}
}

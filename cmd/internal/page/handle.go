package page

import (
	"fmt"
	"math"

	"seamrail/cmd/internal/job"
	"seamrail/motion/base/source"
	"seamrail/motion/move"
)

// Handle is a point of the curve that can be dragged.
type Handle struct {
	Path  string   `json:"path"`
	Kind  string   `json:"kind"`
	Vary  string   `json:"vary"`
	Frame float64  `json:"frame"` // captured
	Pos   float64  `json:"pos"`   // mm or degrees
	Label string   `json:"label"`
	Unit  string   `json:"unit"`
	Min   *float64 `json:"min"` // mm or degrees, null where there is no bound
	Max   *float64 `json:"max"`

	drag func(move.Pull) []move.Edit
}

// handles are those of axis i.
func handles(p *job.Job, i int) []Handle {
	a := p.Plan.Axes[i]
	h := Handle{Unit: a.Rig.Unit()}
	if !a.Rig.Endless {
		h.Min, h.Max = &a.Rig.Min, &a.Rig.Max
	}
	var out []Handle
	for _, g := range a.Move.Does.Grips(move.Stage{Loop: p.Shot.Loop, Captured: p.Trajectory.Captured(), Quickest: p.Shot.Quickest}) {
		h.Path, h.Kind, h.Vary = pathOf(a.Move.Name, g.Key), g.Kind, g.Vary
		h.Label, h.Frame, h.Pos, h.drag = a.Move.Name+", "+g.Label, g.Frame, g.Pos, g.Drag
		out = append(out, h)
	}
	return out
}

func pathOf(axis, key string) string { return source.Join("axis", axis) + "." + key }

// sets are edits of an axis as values of the file.
func sets(axis string, edits []move.Edit) []Set {
	out := make([]Set, len(edits))
	for i, e := range edits {
		out[i] = Set{pathOf(axis, e.Key), e.Text}
	}
	return out
}

// to is the values that a drag of the handle of an axis gives.
func (x Handle) to(axis string, e Edit) ([]Set, error) {
	pull := move.Pull{Frame: e.Frame}
	switch {
	case x.Vary == move.VaryTime && e.Frame != nil:
		return sets(axis, x.drag(pull)), nil
	case x.Vary == move.VaryTime || e.Pos == nil:
		return nil, fmt.Errorf("%s was dragged to no place", x.Path)
	}
	pull.Pos = *e.Pos
	if x.Min != nil {
		pull.Pos = math.Min(math.Max(pull.Pos, *x.Min), *x.Max)
	}
	return sets(axis, x.drag(pull)), nil
}

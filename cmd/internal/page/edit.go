package page

import (
	"fmt"
	"math"
	"strings"

	"seamrail/cmd/internal/job"
	"seamrail/motion/move"
	"seamrail/motion/shot"
	"seamrail/motion/source"
	"seamrail/motion/unit"
)

// Edit is one change: a value as it is typed, or a place to which a handle of
// the curve (Frame, Pos) or of the view from above (X, Y) was dragged.
type Edit struct {
	Path  string   `json:"path"`
	Value *string  `json:"value,omitempty"`
	Frame *float64 `json:"frame,omitempty"` // captured, from frame 0
	Pos   *float64 `json:"pos,omitempty"`   // mm or degrees
	X     *float64 `json:"x,omitempty"`     // mm of the view from above
	Y     *float64 `json:"y,omitempty"`
}

// Set is a value at a path of the shot file.
type Set struct {
	Path  string `json:"path"`
	Value string `json:"value"`
}

// place is a dragged place as the file has it.
func place(at float64, dim unit.Dimension) string { return move.Place(at, move.DragGrain, dim) }

// dragged turns a drag into values.
func dragged(p *job.Job, e Edit) ([]Set, error) {
	for _, x := range []*float64{e.Frame, e.Pos, e.X, e.Y} {
		if x != nil && (math.IsNaN(*x) || math.Abs(*x) > farthest) {
			return nil, fmt.Errorf("%s cannot be dragged there", e.Path)
		}
	}
	switch {
	case e.Path == loopPath && e.Frame != nil:
		return loopTo(p.Shot, *e.Frame)
	case strings.HasPrefix(e.Path, abovePath) && e.X != nil && e.Y != nil:
		return draggedAbove(p, e.Path, *e.X, *e.Y)
	}
	for i := range p.Trajectory.AxisCount() {
		for _, h := range handles(p, i) {
			if h.Path == e.Path {
				return h.to(p.Trajectory.Axis(i).Name, e)
			}
		}
	}
	return nil, fmt.Errorf("%s is nothing that can be dragged", e.Path)
}

// farthest is beyond any loop in frames and any rig in mm.
const farthest = 1e7

// loopPath is the length of the loop.
const loopPath = "clock.loop"

// nearLoops is how many frames away a loop is looked for that has whole
// captured frames: the rates of cameras have one within that.
const nearLoops = 60

// loopTo is the loop of whole frames nearest to a captured frame.
func loopTo(s shot.Shot, frame float64) ([]Set, error) {
	n := max(move.Timeline(s.Clock, frame), 1)
	for away := range int64(nearLoops) {
		for _, m := range []int64{n - away, n + away} {
			if m < 1 {
				continue
			}
			if _, err := s.Clock.LoopFrames(m); err == nil {
				return []Set{{loopPath, move.FramesText(m)}}, nil
			}
		}
	}
	_, err := s.Clock.LoopFrames(n)
	return nil, err
}

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
	return listOf(edits, func(e move.Edit) Set { return Set{pathOf(axis, e.Key), e.Text} })
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

package page

import (
	"fmt"
	"math"
	"strings"

	"seamrail/cmd/internal/job"
	"seamrail/motion/base/unit"
	"seamrail/motion/move"
	"seamrail/motion/spec/shot"
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

package page

import (
	"fmt"
	"math"
	"strings"

	"seamrail/cmd/internal/job"
	"seamrail/motion/clock"
	"seamrail/motion/exact"
	"seamrail/motion/shot"
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

// dragGrain is what a dragged place is rounded to, in mm or degrees: no hand
// sets a rig finer, and numbers stay short.
const dragGrain = 0.1

// place is a dragged place as the file has it.
func place(at float64, dim unit.Dimension) string {
	return unit.Format(math.Round(at/dragGrain)*dragGrain, dim)
}

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
				return h.to(p, e)
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
	n := max(timeline(s.Clock, frame), 1)
	for away := range int64(nearLoops) {
		for _, m := range []int64{n - away, n + away} {
			if m < 1 {
				continue
			}
			if _, err := s.Clock.LoopFrames(m); err == nil {
				return []Set{{loopPath, frames(m)}}, nil
			}
		}
	}
	_, err := s.Clock.LoopFrames(n)
	return nil, err
}

// timeline is the timeline frame nearest to a captured one.
func timeline(c clock.Clock, frame float64) int64 {
	return int64(math.Round(frame / c.PerScreen().Float()))
}

func frames(n int64) string {
	if n == 1 {
		return "1 frame"
	}
	return fmt.Sprintf("%d frames", n)
}

// turnsTo is the turn nearest to one of so many degrees that ends on a face of
// the product, and goes somewhere.
func turnsTo(degrees float64, m shot.AxisMove) string {
	faces := m.Symmetry
	if faces == 0 {
		faces = plainFaces
	}
	n := int64(math.Round(degrees / degreesPerTurn * float64(faces)))
	if n == 0 {
		n = 1
		if degrees < 0 {
			n = -1
		}
	}
	return exact.New(n, faces).String()
}

const degreesPerTurn = 360

// plainFaces is how finely a turn is dragged whose product has no faces: by the
// degree.
const plainFaces = 360

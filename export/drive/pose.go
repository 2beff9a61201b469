package drive

import (
	"fmt"
	"math"
	"strings"

	"seamrail/motion/base/unit"
)

// pose brings every axis to where a frame of the loop finds it, one after the other. A
// take begins at its start as ever.
func (e *engine) pose(frame float64) error {
	if !e.known {
		e.Observer.Say(unknownPlace)
		return nil
	}
	last := e.Trajectory.Captured() - 1
	if !(frame >= 0 && frame <= float64(last)) {
		e.Observer.Say(fmt.Sprintf("frame %g is not in the loop, which has captured frames 0 to %d", frame, last))
		return nil
	}
	to := make([]float64, len(e.axes))
	for i, a := range e.axes {
		to[i] = e.planAt(i, 1, frame/e.Trajectory.Clock().Capture.Float())
		if !a.Contains(to[i]) {
			e.Observer.Say(fmt.Sprintf("axis %s: frame %g is at %.3f %s, beyond its travel", a.Name, frame, to[i], a.Unit()))
			return nil
		}
	}
	axes, words, err := e.orderTo(to)
	if err != nil {
		e.Observer.Say(fmt.Sprintf("it does not go to frame %g: %v", frame, err))
		return nil
	}
	if words != "" {
		e.Observer.Say(words)
	}
	e.enter(Posing)
	if err := e.goInOrder(to, axes); err != nil {
		return err
	}
	e.Observer.Say(e.posed(frame))
	return nil
}

// orderTo is the order in which the axes go to places.
func (e *engine) orderTo(to []float64) (axes []int, words string, err error) {
	if e.Way != nil {
		return e.Way(e.at, to)
	}
	return e.planOrder(), "", nil
}

// planOrder is all axes in the order of the plan.
func (e *engine) planOrder() []int {
	out := make([]int, len(e.axes))
	for i := range out {
		out[i] = i
	}
	return out
}

// posed says which frame the rig shows.
func (e *engine) posed(frame float64) string {
	text := fmt.Sprintf("Frame %g of the loop, %s:", frame, e.label(int64(math.Floor(frame))))
	for i, a := range e.axes {
		dim := unit.Length
		if a.Unit() == "deg" {
			dim = unit.Angle
		}
		text += fmt.Sprintf(" %s %s,", a.Name, unit.Format(e.at[i], dim))
	}
	return strings.TrimSuffix(text, ",") + "."
}

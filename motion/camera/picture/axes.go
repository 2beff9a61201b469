package picture

import (
	"fmt"
	"math"

	"seamrail/motion/base/fault"
	"seamrail/motion/base/unit"
	"seamrail/motion/scene"
	"seamrail/motion/spec/rig"
)

// kinds refuses a slide that turns and a focus that is not in mm.
func (e *eye) kinds() fault.List {
	var out fault.List
	linear := func(key string, i int) {
		if i >= 0 && e.motion.Axis(i).Kind == rig.Rotary {
			out = append(out, fault.Fault{Quantity: key, Value: e.motion.Axis(i).Name, Bound: "must be a linear axis"})
		}
	}
	for k, i := range e.slides {
		linear("scene.axis."+e.scene.Stand.Slides[k].Axis+".role", i)
	}
	linear("scene.axis."+e.scene.Stand.FocusAxis+".role", e.pull)
	return out
}

// pulled refuses a focus axis that comes within the focal length.
func (e *eye) pulled() fault.List {
	if !e.pulls() || !e.focal.Given {
		return nil
	}
	nearest, at := math.Inf(1), 0.0
	s := e.stretches()[0]
	s.look(func(sec float64, q setting) {
		if q.focus < nearest {
			nearest, at = q.focus, sec
		}
	})
	axis, quantity := "", "camera.pull"
	if e.pull >= 0 {
		axis, quantity = e.motion.Axis(e.pull).Name, "focus"
	}
	value, where := unit.Format(nearest, unit.Length), fmt.Sprintf("at frame %d", e.moment(at).Frame)
	if least := e.scene.Lens.Closest(); nearest > e.focal.Value && nearest < least*(1-scene.TwiceSaid) {
		return fault.List{{Axis: axis, Quantity: quantity, Value: value,
			Bound: "must be " + unit.Format(least, unit.Length) + " or more, the nearest focus of the lens",
			Where: where, Fit: "pull it from farther away"}}
	}
	if nearest > e.focal.Value {
		return nil
	}
	return fault.List{{Axis: axis, Quantity: quantity, Value: value,
		Bound: "must be beyond the focal length, " + unit.Format(e.focal.Value, unit.Length),
		Where: where, Fit: "no picture forms nearer"}}
}

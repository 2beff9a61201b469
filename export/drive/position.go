package drive

import (
	"seamrail/motion/spec/rig"
)

// reading returns what the last report says of each axis of the plan, in the
// controller's own count.
func (t *talker) reading() ([]float64, bool) {
	if t.status.work != nil {
		return t.ofPlan(t.status.work)
	}
	return t.onMachine()
}

// onMachine returns what the last report says of each axis of the plan in the
// count that homing sets, if it is one of those.
func (t *talker) onMachine() ([]float64, bool) { return t.ofPlan(t.status.machine) }

// ofPlan picks the axes of the plan out of a report, in mm and degrees.
func (t *talker) ofPlan(from []float64) ([]float64, bool) {
	cols := columns(t.rigAxes(), len(from))
	if cols == nil {
		return nil, false
	}
	out := make([]float64, len(t.axes))
	for i := range t.axes {
		out[i] = from[cols[i]]
		if t.inches {
			out[i] *= inch
		}
	}
	return out, true
}

// position returns where the axes of the plan stand by the last report.
func (t *talker) position() ([]float64, bool) {
	out, ok := t.reading()
	if !ok || t.shift == nil {
		return nil, false
	}
	for i := range out {
		out[i] -= t.shift[i]
	}
	return out, true
}

// rigAxes are the axes of the plan, then those of the rig that it leaves alone.
func (t *talker) rigAxes() []rig.Axis {
	all := append([]rig.Axis(nil), t.axes...)
	for _, a := range t.Trajectory.Rig().Axes {
		if !has(t.axes, a.Name) {
			all = append(all, a)
		}
	}
	return all
}

func has(axes []rig.Axis, name string) bool {
	for _, a := range axes {
		if a.Name == name {
			return true
		}
	}
	return false
}

package drive

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"seamrail/motion/spec/rig"
)

// status is a report of what the controller is doing.
type status struct {
	state   string // the word before the first bar: "Run", "Hold"
	sub     string // after its colon: "0"
	machine []float64
	work    []float64
	blocks  int // free, -1 when not told
	bytes   int // free in the receive buffer, -1 when not told
}

// parseStatus reads "<State:sub|Name:numbers|...>". Fields it does not know are
// passed over: controllers have many.
func parseStatus(text string) (status, bool) {
	body, open := strings.CutPrefix(text, "<")
	body, closed := strings.CutSuffix(body, ">")
	fields := strings.Split(body, "|")
	s := status{blocks: -1, bytes: -1}
	s.state, s.sub, _ = strings.Cut(fields[0], ":")
	if !open || !closed || s.state == "" {
		return s, false
	}
	for _, f := range fields[1:] {
		if !s.field(f) {
			return s, false
		}
	}
	return s, true
}

// field reads one field, and tells whether it makes sense if it is known.
func (s *status) field(f string) (ok bool) {
	name, value, _ := strings.Cut(f, ":")
	switch name {
	case "MPos":
		s.machine, ok = numbers(value)
	case "WPos":
		s.work, ok = numbers(value)
	case "Bf":
		var n []float64
		if n, ok = numbers(value); ok && len(n) == 2 {
			s.blocks, s.bytes = int(n[0]), int(n[1])
		}
	default:
		ok = true
	}
	return ok
}

// numbers reads "1.000,-2.5". Not a number and infinities are refused.
func numbers(text string) ([]float64, bool) {
	parts := strings.Split(text, ",")
	out := make([]float64, len(parts))
	for i, p := range parts {
		var ok bool
		if out[i], ok = number(p); !ok {
			return nil, false
		}
	}
	return out, true
}

// number reads one.
func number(text string) (float64, bool) {
	x, err := strconv.ParseFloat(text, 64)
	return x, err == nil && !math.IsInf(x, 0) && !math.IsNaN(x)
}

// is tells whether the controller reports one of the states.
func (s status) is(states ...string) bool {
	return slices.ContainsFunc(states, func(w string) bool { return strings.EqualFold(s.state, w) })
}

// reportOrder is the order in which controllers report their axes.
const reportOrder = "XYZABCUVW"

// columns returns in which place of a report of n numbers each axis stands: in
// the order of the letters, or where a letter lies beyond n, as many as there
// are axes in that order. It returns nil when neither can be.
func columns(axes []rig.Axis, n int) []int {
	byLetter, byRank := make([]int, len(axes)), make([]int, len(axes))
	beyond := false
	for i, a := range axes {
		byLetter[i] = strings.Index(reportOrder, a.Letter)
		beyond = beyond || byLetter[i] < 0 || byLetter[i] >= n || a.Letter == ""
		for _, other := range axes {
			if strings.Index(reportOrder, other.Letter) < byLetter[i] {
				byRank[i]++
			}
		}
	}
	switch {
	case !beyond:
		return byLetter
	case len(axes) == n:
		return byRank
	}
	return nil
}

// reading returns what the last report says of each axis of the plan, in the
// controller's own count.
func (t *lineController) reading() ([]float64, bool) {
	if t.status.work != nil {
		return t.ofPlan(t.status.work)
	}
	return t.onMachine()
}

// onMachine returns what the last report says of each axis of the plan in the
// count that homing sets, if it is one of those.
func (t *lineController) onMachine() ([]float64, bool) { return t.ofPlan(t.status.machine) }

// ofPlan picks the axes of the plan out of a report, in mm and degrees.
func (t *lineController) ofPlan(from []float64) ([]float64, bool) {
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
func (t *lineController) position() ([]float64, bool) {
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
func (t *lineController) rigAxes() []rig.Axis {
	all := append([]rig.Axis(nil), t.axes...)
	for _, a := range t.Trajectory.Rig().Axes {
		if !slices.ContainsFunc(t.axes, func(own rig.Axis) bool { return own.Name == a.Name }) {
			all = append(all, a)
		}
	}
	return all
}

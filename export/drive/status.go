package drive

import (
	"math"
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
		x, err := strconv.ParseFloat(p, 64)
		if err != nil || math.IsInf(x, 0) || math.IsNaN(x) {
			return nil, false
		}
		out[i] = x
	}
	return out, true
}

// is tells whether the controller reports one of the states.
func (s status) is(states ...string) bool {
	for _, w := range states {
		if strings.EqualFold(s.state, w) {
			return true
		}
	}
	return false
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

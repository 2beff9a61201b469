package motionplot

import (
	"fmt"
	"math"

	"seamrail/plot/internal/style"
)

// quantity is one row of an axis: what it is called and how to read it.
type quantity struct {
	name  string
	per   string // after the unit
	pick  func(State) float64
	limit func(Limits) float64 // size allowed, 0 for none
	peak  func(Peaks) Peak
}

var rates = []quantity{
	{"speed", "/s", func(s State) float64 { return s.Vel },
		func(l Limits) float64 { return l.Speed }, func(p Peaks) Peak { return p.Speed }},
	{"acceleration", "/s²", func(s State) float64 { return s.Acc },
		func(l Limits) float64 { return l.Acc }, func(p Peaks) Peak { return p.Acc }},
	{"jerk", "/s³", func(s State) float64 { return s.Jerk },
		func(l Limits) float64 { return l.Jerk }, func(p Peaks) Peak { return p.Jerk }},
}

func position(s State) float64 { return s.Pos }

// amount prints a value with its unit: "187.5 mm/s", "60 deg".
func amount(v float64, unit, per string) string { return style.Number(v) + " " + unit + per }

// told says how a rate stands against its limit.
func told(peak, limit float64, unit, per string) string {
	size := math.Abs(peak)
	switch {
	case size == 0:
		return "none"
	case math.IsInf(size, 0):
		return "jumps: unbounded"
	case limit <= 0 || math.IsInf(limit, 0):
		return "at most " + amount(size, unit, per)
	}
	if exceeds(peak, limit) {
		return fmt.Sprintf("%s, over %s", amount(size, unit, per), amount(limit, unit, per))
	}
	return fmt.Sprintf("at most %s of %s", amount(size, unit, per), amount(limit, unit, per))
}

// slack is the share by which a peak may pass its limit through rounding.
const slack = 1e-9

// exceeds tells whether a peak is beyond a limit; 0 is no limit.
func exceeds(peak, limit float64) bool { return limit > 0 && math.Abs(peak) > limit*(1+slack) }

// beyond tells whether [lo, hi] leaves the travel.
func beyond(lo, hi float64, l Limits) bool {
	room := slack * max(1, math.Abs(lo), math.Abs(hi))
	return lo < l.Min-room || hi > l.Max+room
}

// travels says where an axis goes and what travel it has.
func travels(lo, hi float64, l Limits, unit string) string {
	text := fmt.Sprintf("%s to %s", style.Number(lo), amount(hi, unit, ""))
	if style.Number(lo) == style.Number(hi) {
		text = "stays at " + amount(hi, unit, "")
	}
	if math.IsInf(l.Min, 0) || math.IsInf(l.Max, 0) {
		return text
	}
	return fmt.Sprintf("%s of %s to %s", text, style.Number(l.Min), amount(l.Max, unit, ""))
}

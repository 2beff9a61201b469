package reach

import (
	"math"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
	"seamrail/motion/law"
	"seamrail/motion/move"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// Cell is the shortest loop of one law at one travel.
type Cell struct {
	Law      string
	Travel   float64 // mm or degrees
	Possible bool
	Loop     clock.Loop // the zero Loop where not Possible
	Binding  string     // the limit that decides it, empty where only the planner knows; where not Possible, the one that cannot be kept
}

// Shuttle is an axis that goes there and back, and how.
type Shuttle struct {
	Axis shot.AxisMove
	move.Shuttle
}

// ShuttleOf returns the axis as one, and false where it does anything else.
func ShuttleOf(m shot.AxisMove) (Shuttle, bool) {
	s, ok := m.Does.(move.Shuttle)
	return Shuttle{m, s}, ok
}

// Table is travel against the shortest loop, law by law, for one axis.
type Table struct {
	Axis    string
	Unit    string
	Travels []float64
	Laws    []string
	Cells   [][]Cell // by law, then by travel
}

// tableTravels is how many travels a table has when none are asked for.
const tableTravels = 10

// Travels returns evenly spaced travels up to the axis' whole travel, or a
// whole turn where it is endless.
func Travels(a rig.Axis) []float64 {
	most := a.Travel()
	if math.IsInf(most, 1) {
		most = 360
	}
	out := make([]float64, tableTravels)
	for k := range out {
		out[k] = most * float64(k+1) / tableTravels
	}
	return out
}

// NewTable computes the shortest loop for each travel under each law of the
// catalogue, for a move there and back with the dwells, shares and cycles of
// m. Each loop is built as a plan of that axis alone and holds every limit.
func NewTable(s shot.Shot, r rig.Rig, m Shuttle, travels []float64) Table {
	axis, _ := r.Axis(m.Axis.Name)
	t := Table{Axis: axis.Name, Unit: axis.Unit(), Travels: travels, Laws: law.Names()}
	for _, l := range law.All() {
		row := make([]Cell, len(travels))
		for k, d := range travels {
			row[k] = cell(s, r, axis, m, l, d)
		}
		t.Cells = append(t.Cells, row)
	}
	return t
}

func cell(s shot.Shot, r rig.Rig, a rig.Axis, m Shuttle, l law.Law, travel float64) Cell {
	c := Cell{Law: l.Name(), Travel: travel}
	leg, binding := Leg(l, travel, LimitsOf(a, r.Controller))
	c.Binding = binding
	w := m.Going().WithLaws(l, l)
	w.From = unit.Quantity{Value: exact.FromFloat(a.Min), Dim: dimension(a)}
	w.To = unit.Quantity{Value: exact.FromFloat(a.Min + travel), Dim: dimension(a)}
	alone := s
	alone.Axes = []shot.AxisMove{m.Axis.Doing(m.WithWays(w))}
	if !math.IsInf(leg, 1) {
		c.Loop, c.Possible = fromLeg(alone, r, w, leg)
		return c
	}
	// A law that is unbounded at its ends may still close without a jump when
	// it turns round at once, as a cosine does: ask the planner.
	if c.Loop, c.Possible = ShortestLoop(alone, r); c.Possible {
		c.Binding = ""
	}
	return c
}

// Plain returns a plain move there and back for an axis that has none: once a
// loop, half the time each way, no dwell, of least jerk.
func Plain(a rig.Axis) Shuttle {
	l := law.MinimumJerk()
	w := move.Ways{Cycles: 1, OutShare: exact.New(1, 2)}.WithLaws(l, l)
	w.From.Dim, w.To.Dim = dimension(a), dimension(a)
	does := move.ThereAndBack{Ways: w}
	return Shuttle{shot.AxisMove{Name: a.Name, Does: does}, does}
}

func dimension(a rig.Axis) unit.Dimension {
	if a.Kind == rig.Rotary {
		return unit.Angle
	}
	return unit.Length
}

// fromLeg turns the shortest leg into the shortest whole loop around it, and
// builds it to be sure.
func fromLeg(s shot.Shot, r rig.Rig, w move.Ways, leg float64) (clock.Loop, bool) {
	out := w.OutShare.Float()
	moving := leg / math.Min(out, 1-out)
	cycle := moving + w.DwellFar.Float() + w.DwellNear.Float()
	screen := float64(w.Cycles) * cycle / s.Clock.Retime.Float() * s.Clock.Playback.Float()
	grain := s.Clock.PerScreen().Den().Int64()
	// One less than the closed form asks for: rounding may have pushed an
	// exact whole number of frames past itself.
	first := max(1, int64(math.Ceil(screen/float64(grain)))-1)
	for n := first; n <= first+2; n++ {
		loop, err := s.Clock.LoopFrames(n * grain)
		if err == nil && inside(withLoop(s, loop), r) {
			return loop, true
		}
	}
	return ShortestLoop(s, r)
}

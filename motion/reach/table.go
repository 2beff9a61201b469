package reach

import (
	"math"

	"seamrail/motion/clock"
	"seamrail/motion/exact"
	"seamrail/motion/law"
	"seamrail/motion/rig"
	"seamrail/motion/shot"
	"seamrail/motion/unit"
)

// Cell is the shortest loop of one law at one travel.
type Cell struct {
	Law      string
	Travel   float64 // mm or degrees
	Possible bool
	Loop     clock.Loop // the zero Loop where not Possible
	Binding  string     // the limit that decides it, empty where only the planner knows; where not Possible, the one that cannot be kept
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
func NewTable(s shot.Shot, r rig.Rig, m shot.AxisMove, travels []float64) Table {
	axis, _ := r.Axis(m.Name)
	t := Table{Axis: m.Name, Unit: axis.Unit(), Travels: travels, Laws: law.Names()}
	for _, l := range law.All() {
		row := make([]Cell, len(travels))
		for k, d := range travels {
			row[k] = cell(s, r, axis, m.WithLaw(l), d)
		}
		t.Cells = append(t.Cells, row)
	}
	return t
}

func cell(s shot.Shot, r rig.Rig, a rig.Axis, m shot.AxisMove, travel float64) Cell {
	c := Cell{Law: m.Law.Name(), Travel: travel}
	leg, binding := Leg(m.Law, travel, LimitsOf(a, r.Controller))
	c.Binding = binding
	m.From = unit.Quantity{Value: exact.FromFloat(a.Min), Dim: dimension(a)}
	m.To.Dim = dimension(a)
	m = m.WithTo(a.Min + travel)
	alone := withMoves(s, m)
	if !math.IsInf(leg, 1) {
		c.Loop, c.Possible = fromLeg(alone, r, m, leg)
		return c
	}
	// A law that is unbounded at its ends may still close without a jump when
	// it turns round at once, as a cosine does: ask the planner.
	if c.Loop, c.Possible = ShortestLoop(alone, r); c.Possible {
		c.Binding = ""
	}
	return c
}

// Move returns a plain move there and back for an axis that has none: once a
// loop, half the time each way, no dwell, 3-4-5.
func Move(a rig.Axis) shot.AxisMove {
	l, err := law.Named("3-4-5")
	if err != nil {
		panic("reach: " + err.Error())
	}
	m := shot.AxisMove{Name: a.Name, Move: shot.ThereAndBack, Cycles: 1, OutShare: exact.New(1, 2)}
	m.From.Dim, m.To.Dim = dimension(a), dimension(a)
	return m.WithLaw(l)
}

func dimension(a rig.Axis) unit.Dimension {
	if a.Kind == rig.Rotary {
		return unit.Angle
	}
	return unit.Length
}

func withMoves(s shot.Shot, m shot.AxisMove) shot.Shot {
	s.Axes = []shot.AxisMove{m}
	return s
}

// fromLeg turns the shortest leg into the shortest whole loop around it, and
// builds it to be sure.
func fromLeg(s shot.Shot, r rig.Rig, m shot.AxisMove, leg float64) (clock.Loop, bool) {
	out := m.OutShare.Float()
	moving := leg / math.Min(out, 1-out)
	cycle := moving + m.DwellFar.Float() + m.DwellNear.Float()
	screen := float64(m.Cycles) * cycle / s.Clock.Retime.Float() * s.Clock.Playback.Float()
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

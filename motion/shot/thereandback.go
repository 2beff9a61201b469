package shot

import (
	"fmt"

	"seamrail/motion/exact"
	"seamrail/motion/source"
	"seamrail/motion/unit"
)

const (
	// maxCycles is more often than anyone wants to see it in a loop.
	maxCycles = 1000
	// maxTurns keeps a slip of the finger from spinning glass.
	maxTurns = 1000
)

func (r mover) thereAndBack(m *AxisMove) {
	from, ok := r.position(r.raw.From, "from", "40 mm")
	to, ok2 := r.position(r.raw.To, "to", "100 mm")
	m.From, m.To = from, to
	if ok && ok2 {
		r.ends(from, to)
	}
	m.Law, m.BackLaw = r.laws(m.Move)
	m.Cycles = r.cycles()
	m.OutShare = r.share(r.raw.OutShare, "out-share", half, "as long back as out", inside, "above 0 and below 1")
	m.Phase = r.share(r.raw.Phase, "phase", exact.Rat{}, "the first frame is where it sets out", wrapped, "from 0 to below 1")
	m.DwellFar = r.dwell(r.raw.DwellFar, "dwell-far")
	m.DwellNear = r.dwell(r.raw.DwellNear, "dwell-near")
	if r.time.known {
		r.timeToMove(m)
	}
}

func inside(s exact.Rat) bool { return s.Sign() > 0 && s.Less(exact.Int(1)) }

func wrapped(s exact.Rat) bool { return s.Sign() >= 0 && s.Less(exact.Int(1)) }

func (r mover) ends(from, to unit.Quantity) {
	switch {
	case from.Dim != to.Dim:
		r.Wrong(r.raw.To, r.path+"to", "must be "+from.Dim.String()+", as from is", "")
	case from.Value.Equal(to.Value):
		r.Wrong(r.raw.To, r.path+"to", "must be somewhere else than from", `to stay put, use move = "hold"`)
	}
}

func (r mover) cycles() int {
	if !r.raw.Cycles.Set {
		r.Default(r.path+"cycles", "1", "once there and back")
		return 1
	}
	n, ok := r.Whole(r.raw.Cycles, r.path+"cycles", 1, maxCycles)
	if !ok {
		return 1
	}
	return int(n)
}

// timeToMove checks that the dwells leave the carriage some of each cycle.
func (r mover) timeToMove(m *AxisMove) {
	cycle := r.time.loop.Real().Quo(exact.Int(int64(m.Cycles)))
	dwells := m.DwellFar.Add(m.DwellNear)
	if dwells.Less(cycle) {
		return
	}
	key, text := r.longest(m)
	frames := r.time.frames(cycle).Decimal(2)
	bound := fmt.Sprintf("leaves no time to move: both dwells come to %s frames and a cycle has %s",
		r.time.frames(dwells).Decimal(2), frames)
	r.Add(text.Place(), r.path+key, text.Quoted(), bound, "dwells of less than "+frames+" frames together would do")
}

// longest returns the dwell to blame.
func (r mover) longest(m *AxisMove) (string, source.Text) {
	if m.DwellFar.Less(m.DwellNear) {
		return "dwell-near", r.raw.DwellNear
	}
	return "dwell-far", r.raw.DwellFar
}

func (r mover) turn(m *AxisMove) {
	m.Law, _ = r.laws(Turn)
	m.Start = unit.Quantity{Dim: unit.Angle}
	if !r.raw.Start.Set {
		r.Default(r.path+"start", "0 deg", "wherever it stands is called 0")
	} else {
		m.Start, _ = r.Quantity(r.raw.Start, r.path+"start", unit.Angle)
	}
	if !r.raw.Turns.Set {
		r.Missing(r.raw.Place, r.path+"turns", `"1/6"`)
		return
	}
	q, ok := r.Quantity(r.raw.Turns, r.path+"turns", unit.Turns, unit.Number)
	switch {
	case !ok:
	case q.Value.Sign() == 0:
		r.Wrong(r.raw.Turns, r.path+"turns", "must not be 0", `to stay put, use move = "hold"`)
	case exact.Int(maxTurns).Less(q.Value.Abs()):
		r.Wrong(r.raw.Turns, r.path+"turns", fmt.Sprintf("must be from -%d to %d", maxTurns, maxTurns), "")
	}
	m.Turns = q.Value
	if ok && r.raw.Symmetry.Set {
		r.faces(m)
	}
}

// faces reads the symmetry of what the table carries, and wants each loop to
// end on one of its faces.
func (r mover) faces(m *AxisMove) {
	k, ok := symmetry(r.Report, r.raw.Symmetry, r.path+"symmetry")
	m.Symmetry = k
	faces := m.Turns.Mul(exact.Int(k))
	if !ok || faces.IsInt() {
		return
	}
	fit := ""
	for _, n := range []exact.Rat{faces.Floor(), faces.Ceil()} {
		switch {
		case n.Sign() == 0:
		case fit == "":
			fit = "turns of " + n.Quo(exact.Int(k)).String()
		default:
			fit += " or " + n.Quo(exact.Int(k)).String()
		}
	}
	r.Wrong(r.raw.Symmetry, r.path+"symmetry",
		fmt.Sprintf("must divide the turn: %s of a turn is %s faces, and the loop would end between two", m.Turns, faces.Decimal(3)), fit+" would do")
}

package shot

import (
	"fmt"

	"seamrail/motion/fault"
	"seamrail/motion/unit"
)

// position is a quantity that has to suit the axis, and the key it is under.
type position struct {
	key   string
	value unit.Quantity
}

func (m AxisMove) positions() []position {
	switch m.Move {
	case ThereAndBack, Through:
		return []position{{"from", m.From}, {"to", m.To}}
	case Turn:
		return []position{{"start", m.Start}}
	case Hold:
		return []position{{"at", m.At}}
	case Aim:
		return m.markPositions()
	case Arc:
		return nil
	}
	var out []position
	for i, k := range m.Keys {
		out = append(out, position{fmt.Sprintf("keys[%d].pos", i+1), k.Pos})
	}
	return out
}

// CheckKind returns what is wrong with the move for an axis that is rotary or
// linear, or nil: degrees on a rail, millimetres on a turntable, a turn on a
// rail. File and axis are for the caller to add.
func (m AxisMove) CheckKind(rotary bool) *fault.Fault {
	f := fault.Fault{Line: m.Line, Column: m.Column}
	if m.Move == Turn && !rotary {
		f.Quantity, f.Value, f.Bound = "move", `"turn"`, "must be on a rotary axis, and this one is linear"
		f.Fit = "there-and-back, keys or hold would do"
		return &f
	}
	if problem := m.aimKind(rotary); problem != nil {
		return problem
	}
	want, kind := unit.Length, "linear"
	if rotary {
		want, kind = unit.Angle, "rotary"
	}
	for _, p := range m.positions() {
		if p.value.Dim != want {
			f.Quantity, f.Value = p.key, p.value.String()
			f.Bound = "must be " + want.String() + ", as the axis is " + kind
			f.Fit = "such as " + want.Example()
			return &f
		}
	}
	if !rotary && m.Advance.Sign() != 0 {
		f.Quantity, f.Value, f.Bound = "advance", unit.Format(m.Advance.Float(), unit.Angle), "must be 0 on a linear axis"
		f.Fit = "only a rotary axis can go round and be back"
		return &f
	}
	return nil
}

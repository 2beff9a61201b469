package shot

import (
	"fmt"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/law"
	"seamrail/motion/move"
	"seamrail/motion/spec/rig"
	"seamrail/motion/track"
	"seamrail/motion/vibration"
)

// AxisMove is an axis and what it does during the loop.
type AxisMove struct {
	Name   string
	Line   int // of the axis in the file, 1-based
	Column int
	Origin string // the flag that added the axis; "" for the file
	Faulty bool   // not understood: some fault says why

	Does   move.Move        // nil where nobody can tell
	Shaped vibration.Shaper // so that it leaves no after-shake; 0 = as its law goes
}

// build understands an axis.
func build(report *source.Report, name string, raw move.Raw, t timing) AxisMove {
	path := source.Join("axis", name)
	before := report.Wrongs()
	rig.CheckName(report, raw.Place, path, name)
	m := AxisMove{Name: name, Line: raw.Place.Line, Column: raw.Place.Column, Origin: raw.Place.Origin}
	m.Does = raw.Read(&move.Reader{Report: report, At: raw.Place, Path: path + ".", Axis: name, Time: t.Timing})
	m.Shaped = shaped(report, raw.Shaped, path+"."+move.ShapedKey, m.Does)
	m.Faulty = report.Wrongs() > before
	return m
}

// Kind is the name of the move, "" where nobody can tell.
func (m AxisMove) Kind() string {
	if m.Does == nil {
		return ""
	}
	return m.Does.Kind()
}

// Doing returns the axis with another move.
func (m AxisMove) Doing(does move.Move) AxisMove {
	m.Does = does
	return m
}

// Track returns how the axis moves over a loop of period real seconds, if the move
// has a track of its own.
func (m AxisMove) Track(period exact.Rat) (*track.Track, error) {
	if m.Does == nil {
		return nil, fmt.Errorf("axis %s has no move", m.Name)
	}
	return m.Does.Track(period)
}

// CheckKind returns what is wrong with the move for an axis that is rotary or
// linear, or nil: degrees on a rail, millimetres on a turntable, a turn on a
// rail. File and axis are for the caller to add.
func (m AxisMove) CheckKind(rotary bool) *fault.Fault {
	if m.Does == nil {
		return nil
	}
	f := m.Does.Suits(rotary)
	if f != nil {
		f.Line, f.Column = m.Line, m.Column
	}
	return f
}

// Law is the law of the move, of the way out where there are two, and nil where it
// has none.
func (m AxisMove) Law() law.Law {
	if u, ok := m.Does.(move.UnderLaw); ok {
		out, _ := u.Laws()
		return out
	}
	return nil
}

// WithLaw returns the move under another law, both ways; as it is where it goes by
// none.
func (m AxisMove) WithLaw(l law.Law) AxisMove {
	if r, ok := m.Does.(move.Relawed); ok {
		m.Does = r.WithLaws(l, l)
	}
	return m
}

// Stays tells whether the axis is understood to hold still.
func (m AxisMove) Stays() bool {
	_, still := m.Does.(move.Stayer)
	return still
}

package reachreport

import (
	"seamrail/export/report"
	"seamrail/motion/base/exact"
	"seamrail/motion/plan/reach"
)

// Schema names the layout of the JSON report. It changes when a key changes its
// meaning or goes; keys may be added.
const Schema = "seamrail-reach/1"

// Document is the JSON report: travels in Unit.
type Document struct {
	Schema  string    `json:"schema"`
	Axis    string    `json:"axis"`
	Unit    string    `json:"unit"`
	Travels []float64 `json:"travels"`
	Laws    []Law     `json:"laws"`
	Fits    []string  `json:"fits"` // what would fit instead of the shot
}

// Law is the shortest loop of one law for each of the travels.
type Law struct {
	Law   string `json:"law"`
	Loops []Cell `json:"loops"`
}

// Cell is the shortest loop of a law at a travel.
type Cell struct {
	Travel   float64 `json:"travel"`
	Shortest *Loop   `json:"shortest"` // null where none will do
	Binding  string  `json:"binding"`  // the limit that decides it, or that no loop keeps; "" where only the planner knows
}

// Loop is how long a loop is.
type Loop struct {
	Screen   int64     `json:"timeline_frames"`
	Captured int64     `json:"captured_frames"`
	Seconds  exact.Rat `json:"screen_seconds"`
	Real     exact.Rat `json:"real_seconds"`
}

// kept is what numbers keep.
var kept = report.Rounding{Digits: 9}

// Facts tells it to programs: a Document.
func (d Data) Facts() any {
	t := d.Table
	out := Document{Schema: Schema, Axis: t.Axis, Unit: t.Unit, Travels: report.Each(t.Travels, kept.Of), Laws: []Law{}, Fits: report.List(d.Fits)}
	for i, name := range t.Laws {
		out.Laws = append(out.Laws, Law{name, report.Each(t.Cells[i], cellOf)})
	}
	return out
}

func cellOf(c reach.Cell) Cell {
	out := Cell{Travel: kept.Of(c.Travel), Binding: c.Binding}
	if l := c.Loop; c.Possible {
		out.Shortest = &Loop{l.Screen, l.Captured, l.OnScreen(), l.Real()}
	}
	return out
}

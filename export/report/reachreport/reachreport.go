// Package reachreport reports how short a loop can be for a travel, law by law.
package reachreport

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"seamrail/export/report"
	"seamrail/motion/plan/reach"
)

// Data is what there is to tell.
type Data struct {
	Table reach.Table
	Fits  []string // in words, what would fit instead of the shot; for one that does not
}

// The table, in characters: ten travels beside the longest law's name fill a page.
const (
	lawWidth  = 18
	cellWidth = 5
)

// Report tells it to people.
func (d Data) Report() report.Report {
	t := d.Table
	r := report.Report{Title: "Shortest loop, in seconds on screen: " + t.Axis + ", there and back"}
	r.Named("loops", "")
	r.Add(d.table())
	if jumps := d.jumps(); len(jumps) > 0 {
		r.Named("", "")
		r.Bullets(report.Dim, "-", "no loop will do: the law jumps in "+strings.Join(jumps, " or ")+", which the rig limits")
	}
	r.Named("fits", "WHAT WOULD FIT")
	r.Bullets(report.Good, "+", d.Fits...)
	return r
}

func (d Data) table() report.Table {
	t := d.Table
	out := report.Table{Columns: []report.Column{{Head: "travel, " + t.Unit, Width: lawWidth}}, Close: true, Parts: true}
	for _, travel := range t.Travels {
		out.Columns = append(out.Columns, report.Column{Head: figures(travel), Width: cellWidth, Right: true})
	}
	for i, name := range t.Laws {
		out.Rows = append(out.Rows, report.Row{Cells: append([]string{name}, report.Each(t.Cells[i], cell)...)})
	}
	return out
}

// none stands where no loop will do.
const none = "-"

func cell(c reach.Cell) string {
	if !c.Possible {
		return none
	}
	return figures(c.Loop.OnScreen().Float())
}

// jumps are what laws jump in for which no loop will do.
func (d Data) jumps() []string {
	var out []string
	for _, c := range slices.Concat(d.Table.Cells...) {
		if !c.Possible && c.Binding != "" && !slices.Contains(out, c.Binding) {
			out = append(out, c.Binding)
		}
	}
	return out
}

// figures prints a number in at most five characters where it can: two decimals,
// fewer the larger it is.
func figures(v float64) string {
	places := 2
	switch a := math.Abs(v); {
	case a >= 1000, v == math.Trunc(v):
		places = 0
	case a >= 100:
		places = 1
	}
	return strconv.FormatFloat(v, 'f', places, 64)
}

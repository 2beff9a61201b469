package reach

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/job"
	"seamrail/export/report"
	"seamrail/motion/plan/reach"
	"seamrail/motion/spec/rig"
	"seamrail/plot/chart/reachplot"
)

// The reach table, in characters: ten travels beside the longest law's name
// fill 80 columns.
const (
	lawWidth  = 19
	cellWidth = 5
	perTable  = 10
)

// printReach prints the table, ten travels at a time.
func printReach(s command.Streams, j *job.Job, t reach.Table) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n", bolded(s, "Shortest loop, in seconds on screen: "+t.Axis+", there and back"))
	for from := 0; from < len(t.Travels); from += perTable {
		b.WriteString("\n" + part(t, from, min(from+perTable, len(t.Travels))).Text())
	}
	b.WriteString(reachNotes(t))
	for _, f := range j.Fits() {
		fmt.Fprintf(&b, "%s\n", f)
	}
	_, err := fmt.Fprint(s.Out, b.String())
	return err
}

// part is the table of some of the travels.
func part(t reach.Table, from, to int) report.Table {
	out := report.Table{Columns: []report.Column{{Head: "travel, " + t.Unit, Width: lawWidth}}, Close: true}
	for _, d := range t.Travels[from:to] {
		out.Columns = append(out.Columns, report.Column{Head: figures(d), Width: cellWidth, Right: true})
	}
	for i, name := range t.Laws {
		cells := append([]string{name}, report.Each(t.Cells[i][from:to], cellText)...)
		out.Rows = append(out.Rows, report.Row{Cells: cells})
	}
	return out
}

func cellText(c reach.Cell) string {
	if !c.Possible {
		return "-"
	}
	return figures(c.Loop.OnScreen().Float())
}

// reachNotes says what a dash means, where there is one.
func reachNotes(t reach.Table) string {
	var why []string
	for _, row := range t.Cells {
		for _, c := range row {
			if !c.Possible && c.Binding != "" && !slices.Contains(why, c.Binding) {
				why = append(why, c.Binding)
			}
		}
	}
	if len(why) == 0 {
		return ""
	}
	return fmt.Sprintf("\n-  no loop will do: the law jumps in %s, which the rig limits\n", strings.Join(why, " or "))
}

// figures prints a number in at most five characters where it can: three
// decimals, fewer the larger it is.
func figures(v float64) string {
	places := 2
	switch a := math.Abs(v); {
	case a >= 1000:
		places = 0
	case a >= 100:
		places = 1
	}
	s := strconv.FormatFloat(v, 'f', places, 64)
	if strings.Contains(s, ".") && v == math.Trunc(v) {
		s, _, _ = strings.Cut(s, ".")
	}
	return s
}

func bolded(s command.Streams, text string) string {
	if !s.Colour {
		return text
	}
	return "\x1b[1m" + text + "\x1b[0m"
}

// reachData is what the picture shows: laws that have a loop, and the shot.
func reachData(j *job.Job, axis rig.Axis, goes reach.Shuttle, t reach.Table) reachplot.Data {
	d := reachplot.Data{
		Title: "How short can the loop be?",
		Lines: []string{axis.Name + ", there and back · " + j.Rig.Name},
		Unit:  t.Unit,
	}
	if !axis.Endless {
		d.Whole = axis.Travel()
	}
	for i, name := range t.Laws {
		curve := reachplot.Curve{Name: name}
		for _, c := range t.Cells[i] {
			if c.Possible {
				curve.Travel = append(curve.Travel, c.Travel)
				curve.Screen = append(curve.Screen, c.Loop.OnScreen().Float())
			}
		}
		if len(curve.Travel) > 0 {
			d.Curves = append(d.Curves, curve)
		}
	}
	if _, ok := j.Shot.Axis(axis.Name); ok {
		if travel := goes.Going().Travel(); travel > 0 {
			d.Shot = &reachplot.Point{Name: "this shot", Travel: travel, Screen: j.Shot.Loop.OnScreen().Float()}
		}
	}
	return d
}

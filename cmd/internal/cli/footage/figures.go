package footage

import (
	"context"
	"fmt"

	"seamrail/cmd/internal/rushes"
	"seamrail/export/report/footagereport"
	"seamrail/motion/footage/alike"
	"seamrail/plot/chart/footageplot"
)

// alikeSide is how finely likeness is drawn, in cells: some two px of a figure each.
const alikeSide = 240

func alikeFigure(d footagereport.Data, take *rushes.Take) (footageplot.Alike, error) {
	found := alike.Found{}
	if d.Loops != nil {
		found = *d.Loops
	}
	l, err := take.Sketches.Likeness(context.Background(), alikeSide, found)
	out := footageplot.Alike{Title: "Which frames are alike?", Lines: []string{d.Course.About.Name, "dark where two frames are alike; rings are the loops that were found"}, Frames: len(d.Course.Frames)}
	for r := range l.Side {
		row := make([]float64, l.Side)
		for c := range row {
			row[c] = float64(l.Values[r*l.Side+c])
		}
		out.Values = append(out.Values, row)
	}
	for n, run := range found.Runs {
		if n == 0 {
			out.Lines = append(out.Lines, fmt.Sprintf("the best, filled: %d frames from frame %d on", run.Length, run.First+d.First))
		}
		out.Loops = append(out.Loops, footageplot.Loop{From: float64(run.First), To: float64(run.Last())})
	}
	return out, err
}

package measure

import (
	"fmt"
	"io"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/measuring"
	"seamrail/plot/chart/sweepplot"
)

// draw draws the sweep that was made or read.
func (o *Options) draw(kind string, found []*measuring.Found) error {
	doubts := false
	for _, f := range found {
		if doubts = doubts || len(f.Doubts) > 0; f.Swept == nil {
			continue
		}
		d := picture(o.Rig, f)
		return command.DrawToo(o.Streams, o.Output, o.Told.JSON, func(w io.Writer) error { return sweepplot.Draw(w, kind, d) })
	}
	if doubts { // which is told instead
		return nil
	}
	return exit.Misused("-o draws a sweep, and nothing was swept: measure swing, and answer how=sweep, or read one with --sweep and --record")
}

// picture is a sweep as a figure has it.
func picture(rig string, f *measuring.Found) sweepplot.Data {
	d := sweepplot.Data{Title: "What " + f.Axis + " carries, shaken", Notes: []string{rig}}
	for _, w := range f.Doubts {
		d.Notes = append(d.Notes, "in doubt: "+w)
	}
	first, last := f.Swept.Points[0].Frequency, 0.0
	for _, p := range f.Swept.Points {
		d.Read.Hertz, d.Read.Times = append(d.Read.Hertz, p.Frequency), append(d.Read.Times, p.Response/f.Swept.Gain)
		d.Bound = append(d.Bound, 2*p.Sigma/f.Swept.Gain)
		last = p.Frequency
	}
	const fine = 500 // places of the line, more than it has points of paper
	for i := range fine + 1 {
		at := first + (last-first)*float64(i)/fine
		d.Model.Hertz, d.Model.Times = append(d.Model.Hertz, at), append(d.Model.Times, f.Swept.At(at))
	}
	for _, m := range f.Swept.Modes.Modes {
		d.Marks = append(d.Marks, sweepplot.Mark{Hertz: m.Spring.Frequency, Times: m.Top, Name: fmt.Sprintf("%.4g Hz, %.2g %%", m.Spring.Frequency, 100*m.Spring.Damping)})
	}
	return d
}

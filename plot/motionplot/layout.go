package motionplot

import (
	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
)

// The layout, in points on a sheet 6 inches wide.
const (
	width      vg.Length = 432
	left       vg.Length = 60
	right      vg.Length = 54
	edge       vg.Length = 18
	titleRoom  vg.Length = 21 // from the top of a row to the top of its plot
	rowGap     vg.Length = 11 // below a plot
	posPlot    vg.Length = 88
	ratePlot   vg.Length = 68
	flatPlot   vg.Length = 22 // a rate that never changes needs no more
	axisGap    vg.Length = 8
	scaleTop   vg.Length = 40
	scaleBelow vg.Length = 44
	footHeight vg.Length = 34
)

// lane is one axis made ready: its samples and the heights of its plots.
type lane struct {
	trace   sampled
	pos     vg.Length
	heights []vg.Length
}

func (d Data) lanes(rows []quantity) []lane {
	out := make([]lane, len(d.Axes))
	for i, a := range d.Axes {
		t := d.sample(a)
		out[i] = lane{trace: t, pos: posPlot, heights: make([]vg.Length, len(rows))}
		if lo, hi := style.Extent(t.values(position)); style.Level(lo, hi) {
			out[i].pos = flatPlot
		}
		for k, q := range rows {
			out[i].heights[k] = ratePlot
			if lo, hi := style.Extent(t.values(q.pick)); style.Level(lo, hi) {
				out[i].heights[k] = flatPlot
			}
		}
	}
	return out
}

func (l lane) height() vg.Length {
	h := titleRoom + l.pos + rowGap + axisGap
	for _, plot := range l.heights {
		h += titleRoom + plot + rowGap
	}
	return h
}

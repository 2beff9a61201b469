package laid

import (
	"fmt"
	"math"
	"slices"

	"seamrail/export/report/footagereport"
	"seamrail/motion/footage"
	"seamrail/motion/footage/against"
	"seamrail/plot/chart/footageplot"
)

// Figure is where the picture went, over where it was to go.
func Figure(d footagereport.Data, p against.Plan) footageplot.Data {
	p = Counted(d, p)
	out := footageplot.Data{Title: "What was filmed", Lines: []string{d.Course.About.Name, d.Shot}}
	for _, of := range []struct {
		name, unit string
		least      float64 // what hardly any eye sees, and grain reaches
		value      func(p footage.Pose) float64
	}{
		{"to the right", "px", 1, func(p footage.Pose) float64 { return p.X }},
		{"down", "px", 1, func(p footage.Pose) float64 { return p.Y }},
		{"turned", "degrees", 0.2, func(p footage.Pose) float64 { return p.Turn }},
		{"grown", "times", 0.005, func(p footage.Pose) float64 { return p.Scale }},
	} {
		panel := footageplot.Panel{Name: of.name, Unit: of.unit, Least: of.least}
		for n, f := range d.Course.Frames {
			v := math.NaN()
			if f.FromFirst.Known {
				v = of.value(f.FromFirst)
			}
			panel.Measured.Frames, panel.Measured.Values = append(panel.Measured.Frames, float64(n+d.First)), append(panel.Measured.Values, v)
		}
		if found(d) {
			panel.Planned = course(d, p, of.value)
		}
		out.Panels = append(out.Panels, panel)
	}
	if found(d) {
		out.Lines = append(out.Lines, "planned: the course of the plan, as far as each axis was seen to move the picture")
	}
	out.Marks = marks(d, p)
	return out
}

// Counted is a plan in the frames that a recording has: those that were captured, or those of the
// timeline.
func Counted(d footagereport.Data, p against.Plan) against.Plan {
	if d.Plan == nil || !d.Plan.Timeline {
		return p
	}
	if q, ok := p.OnTimeline(); ok {
		return q
	}
	return p
}

// found tells whether frame 0 is known, or would be but for others from which the course is the
// same: of several rounds, any.
func found(d footagereport.Data) bool {
	return d.Plan != nil && (d.Plan.Frame0.Known || len(d.Plan.Frame0.Others) > 0)
}

// marks are where rounds begin and end.
func marks(d footagereport.Data, p against.Plan) (out []footageplot.Mark) {
	if d.Plan == nil || !d.Plan.Frame0.Known {
		return nil
	}
	for n := range p.Rounds + 1 {
		name := "end"
		if n < p.Rounds {
			name = fmt.Sprintf("round %d", n+1)
		}
		out = append(out, footageplot.Mark{Frame: float64(d.First) + d.Plan.Frame0.Value + float64(n)*float64(p.Loop)*(1+d.Plan.Rate.Value), Name: name})
	}
	return out
}

// course is where the picture was to go, as far as each axis was seen to move it.
func course(d footagereport.Data, p against.Plan, value func(footage.Pose) float64) (out footageplot.Series) {
	per := p.CaptureRate.Float()
	at := func(n int) (pose footage.Pose) {
		pose.Scale = 1
		growth := 0.0
		for i, a := range p.Axes {
			g, moved := d.Plan.Axes[i].Gain, a.Shown((float64(n)-d.Plan.Frame0.Value)/per/(1+d.Plan.Rate.Value))-a.Shown(0)
			pose.X, pose.Y, pose.Turn, growth = pose.X+g.X*moved, pose.Y+g.Y*moved, pose.Turn+g.Turn*moved, growth+g.Scale*moved
		}
		pose.Scale = math.Exp(growth)
		return pose
	}
	var off []float64 // by how much the plan's zero lies off the recording's first frame
	for n, f := range d.Course.Frames {
		if f.FromFirst.Known {
			off = append(off, value(f.FromFirst)-value(at(n)))
		}
	}
	slices.Sort(off)
	from := 0.0
	if len(off) > 0 {
		from = off[len(off)/2]
	}
	for n := range d.Course.Frames {
		out.Frames, out.Values = append(out.Frames, float64(n+d.First)), append(out.Values, value(at(n))+from)
	}
	return out
}

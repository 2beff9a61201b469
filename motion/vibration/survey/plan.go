package survey

import (
	"math"

	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/vibration"
	"seamrail/motion/vibration/ringdown"
	"seamrail/motion/vibration/spring"
)

// Axis is what an axis of a plan does to its load, for a report.
type Axis struct {
	Name, Unit string
	Measured   ringdown.Measured
	Found
	PixelsPerUnit float64 // of the picture, as seen across the axis; 0 = not known
	Why           string  // why nothing can be told; else ""
	response      *vibration.Response
	begins        spring.State // of the load at frame 0 of a take, after the run-up
}

// Unlike returns by how much, in units, the load may be elsewhere as a round of a
// take begins than as the next one does: the swing of the difference. The take
// begins at rest, before its run-up, and round n, counted from 0, has forgotten that
// in part.
func (a Axis) Unlike(n int64) float64 {
	if a.response == nil {
		return 0
	}
	now, next := a.response.From(a.begins, int(n)), a.response.From(a.begins, int(n)+1)
	return a.Measured.Spring.Swing(spring.State{Pos: next.Pos - now.Pos, Vel: next.Vel - now.Vel})
}

// OfPlan looks at every axis whose swing the rig knows and which moves within
// the loop. perMM is the picture's pixels to a millimetre, 0 where it is not
// known; a turning axis has none.
func OfPlan(p *plan.Plan, perMM float64) []Axis {
	var out []Axis
	for i := range p.Axes {
		a := &p.Axes[i]
		if !a.Rig.Shake.Spring.Known() || a.Extremes.Acc.Value == 0 {
			continue
		}
		x := Axis{Name: a.Rig.Name, Unit: a.Rig.Unit(), Measured: a.Rig.Shake}
		if a.Rig.Kind == rig.Linear {
			x.PixelsPerUnit = perMM
		}
		f, r, err := Of(p, a).Look(a.Track)
		if err != nil {
			x.Why = err.Error()
		}
		x.Found, x.response = f, r
		if up := a.RunUp; up != nil {
			x.begins = vibration.Carried(a.Rig.Shake.Spring, func(sec float64) float64 { return up.At(sec).Acc }, up.Breaks())
		}
		out = append(out, x)
	}
	return out
}

// Pixels returns a distance in pixels of the picture; 0 where that is not
// known.
func (a Axis) Pixels(units float64) float64 { return math.Abs(units) * a.PixelsPerUnit }

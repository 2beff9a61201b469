package torque

import (
	"math"
	"slices"

	"seamrail/motion/base/root"
	"seamrail/motion/drivetrain/motor"
	"seamrail/motion/plan"
	"seamrail/motion/plan/stepwise"
	"seamrail/motion/track"
)

const (
	// cells is how many parts a smooth stretch of a track is looked at in. No law
	// has more than two waves of acceleration in a stretch.
	cells = 64
	// narrowings is how often the neighbourhood of the worst cell is narrowed by
	// the golden section: to 1e-8 of two cells.
	narrowings = 40
)

// motion is a smooth stretch of what an axis does.
type motion struct {
	phase    string
	from, to float64 // s
	at       func(sec float64) track.State
}

// motions returns the stretches of the loop, the run-up and the run-out.
func motions(p *plan.Plan, a *plan.Axis) []motion {
	if p.ByFrame != nil {
		return hops(p, a)
	}
	var out []motion
	breaks := a.Track.Breaks()
	for i := 1; i < len(breaks); i++ {
		end := breaks[i]
		out = append(out, motion{"loop", breaks[i-1], end, func(sec float64) track.State {
			if sec == end {
				return a.Track.Before(sec)
			}
			return a.Track.At(sec)
		}})
	}
	if r := a.RunUp; r != nil {
		out = append(out, motion{"run-up", -r.Length(), 0, func(sec float64) track.State { return r.At(sec + r.Length()) }})
	}
	if r := a.RunOut; r != nil {
		end := p.Period()
		out = append(out, motion{"run-out", end, end + r.Length(), func(sec float64) track.State { return r.At(sec - end) }})
	}
	return out
}

// hops returns the longest move between two frames, either way: it rests in them, and what
// its loop asks of it in between nobody sees.
func hops(p *plan.Plan, a *plan.Axis) []motion {
	i := slices.IndexFunc(p.Axes, func(b plan.Axis) bool { return b.Rig.Name == a.Rig.Name })
	m := stepwise.Longest(p, i)
	var out []motion
	for _, way := range []float64{1, -1} {
		at := func(sec float64) track.State {
			_, vel, acc, _ := m.At(sec)
			return track.State{Vel: way * vel, Acc: way * acc}
		}
		out = append(out, motion{"moves between frames", 0, m.Ta, at}, motion{"moves between frames", m.Ta + m.Tv, m.T, at})
	}
	return out
}

// moments looks at every cell of a drive that takes so many times as long, and
// closer where the least is left over.
func moments(all []motion, d motor.Drive, slower float64) []Moment {
	out := make([]Moment, 0, len(all)*(cells+2))
	for _, m := range all {
		first := len(out)
		peak := 0
		for i := range cells + 1 {
			out = append(out, m.moment(d, slower, m.from+(m.to-m.from)*float64(i)/cells))
			if strain(out[first+i]) > strain(out[first+peak]) {
				peak = i
			}
		}
		from, to := out[first+max(0, peak-1)].Seconds, out[first+min(cells, peak+1)].Seconds
		out = append(out, m.narrow(d, slower, from, to))
	}
	return out
}

// jump is the moment at which the speed jumps, which asks for more than any
// torque; false where it does not.
func jump(p *plan.Plan, a *plan.Axis) (Moment, bool) {
	acc := a.Extremes.Acc
	if p.ByFrame != nil || !math.IsInf(acc.Value, 0) {
		return Moment{}, false
	}
	s, d := a.Track.At(acc.Time), a.Rig.Drive
	return Moment{
		Phase: "loop", Seconds: acc.Time, Vel: s.Vel, Acc: math.Inf(1),
		Speed: d.Speed(s.Vel), Needs: math.Inf(1), Has: d.Motor.At(d.Speed(s.Vel)),
	}, true
}

func (m motion) moment(d motor.Drive, slower, sec float64) Moment {
	s := m.at(sec)
	return asked(d, Moment{Phase: m.phase, Seconds: sec, Vel: s.Vel / slower, Acc: s.Acc / (slower * slower)})
}

// asked fills in what is needed and what there is.
func asked(d motor.Drive, m Moment) Moment {
	m.Speed = d.Speed(m.Vel)
	m.Needs = math.Abs(d.Torque(m.Vel, m.Acc))
	m.Has = d.Motor.At(m.Speed)
	return m
}

// narrow looks for the worst moment between two by the golden section (Kiefer
// 1953).
func (m motion) narrow(d motor.Drive, slower, from, to float64) Moment {
	sec := root.Golden(from, to, narrowings, 0,
		func(sec float64) float64 { return strain(m.moment(d, slower, sec)) })
	return m.moment(d, slower, sec)
}

// strain is what is needed as a share of what there is; without a curve, what is
// needed.
func strain(m Moment) float64 {
	switch {
	case m.Needs == 0:
		return 0
	case m.Has == 0:
		return math.Inf(1)
	}
	return m.Needs / m.Has
}

// worst returns the moment of the greatest strain: of those beyond the curve the
// fastest, and without a curve that of the greatest torque.
func worst(d motor.Drive, all []Moment) Moment {
	var out Moment
	for _, m := range all {
		more := strain(m) > strain(out)
		if strain(m) == strain(out) {
			more = tie(d, m, out)
		}
		if out.Phase == "" || more {
			out = m
		}
	}
	return out
}

// tie tells whether m counts more than another moment of the same strain.
func tie(d motor.Drive, m, than Moment) bool {
	if len(d.Motor.Curve) == 0 {
		return m.Needs > than.Needs
	}
	return m.Speed > than.Speed
}

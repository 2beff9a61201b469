package vibration

import (
	"math"

	"seamrail/motion/track"
)

// maxHalvings finds a turning point of the swing to the last bit of a time.
const maxHalvings = 60

// Worst returns the greatest distance of the load from the carriage over a
// round, sign kept, and when: found between panels as well, where the swing
// turns.
func (r *Response) Worst() track.Peak {
	var worst track.Peak
	try := func(at, pos float64) {
		if math.Abs(pos) > math.Abs(worst.Value)*(1+jumpSlack) {
			worst = track.Peak{Value: pos, Time: at}
		}
	}
	for i := range r.panels {
		p := &r.panels[i]
		a, b := p.begin(r.states[i]), r.states[i+1]
		try(p.from, a.Pos)
		// A panel is too short for the swing to leave its ends by more than
		// their speeds carry it.
		reach := max(math.Abs(a.Pos), math.Abs(b.Pos)) + p.length*max(math.Abs(a.Vel), math.Abs(b.Vel))
		if a.Vel*b.Vel < 0 && reach > math.Abs(worst.Value) {
			sec := r.turn(i, a.Vel)
			try(p.from+sec, r.within(i, sec).Pos)
		}
	}
	return worst
}

// turn finds where in panel i the load's speed beside the carriage is nothing,
// given its sign at the start.
func (r *Response) turn(i int, early float64) float64 {
	lo, hi := 0.0, r.panels[i].length
	for range maxHalvings {
		mid := (lo + hi) / 2
		if mid <= lo || mid >= hi {
			break
		}
		if r.within(i, mid).Vel*early > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

// Ring returns the greatest distance from the lag over a round at the given
// times, and when.
func (r *Response) Ring(times []float64) track.Peak {
	var worst track.Peak
	for _, t := range times {
		if off := r.At(t).Pos - r.Lag(t); math.Abs(off) > math.Abs(worst.Value) {
			worst = track.Peak{Value: off, Time: t}
		}
	}
	return worst
}

// Rest is a dwell with what rings in it.
type Rest struct {
	From, To float64 // s; To is past the period where the dwell runs through the seam
	Pos      float64 // units, where the axis rests
	Swing    float64 // units, amplitude as it begins
	Left     float64 // units, amplitude as it ends
}

// Rests returns the dwells in time order.
func (r *Response) Rests() []Rest {
	period := r.track.Period().Float()
	dwells := r.track.Dwells()
	if n := len(dwells); n > 1 && dwells[0].From == 0 && dwells[n-1].To == period {
		dwells[n-1].To += dwells[0].To
		dwells = dwells[1:]
	}
	var out []Rest
	for _, d := range dwells {
		swing := r.Spring.Swing(r.At(d.From))
		fade := math.Exp(-r.Spring.Damping * r.Spring.Omega() * (d.To - d.From))
		out = append(out, Rest{d.From, d.To, r.track.At(d.From).Pos, swing, swing * fade})
	}
	return out
}

package sweep

import (
	"cmp"
	"math"
	"math/cmplx"
	"slices"

	"seamrail/motion/vibration/spring"
)

const (
	// stands is how many times higher than the valleys beside it the top of a resonance
	// must be, and clear by how many standard uncertainties.
	stands, clear = 1.25, 4
	// modelled is the share by which the push of the foot may be other than it was worked
	// out, from one frequency to the next: belts give, and play takes some of each stroke.
	modelled = 0.02
	// mostModes are fitted together: more are no tabletop rig.
	mostModes = 4
	// broad is the damping above which a hump is no resonance that a take would notice.
	broad = 0.3
)

// Mode is a resonance.
type Mode struct {
	Spring        spring.Spring
	FrequencySure float64 // standard uncertainties: Hz
	DampingSure   float64 // share of critical
	// Share is how much of the load's own way it is: 1 where there is one spring and the
	// phone rides on its mass; it may be below 0.
	Share float64
	Top   float64 // how many times as far as its foot the load goes there
}

// Modes is what springs would have done what was read.
type Modes struct {
	Modes []Mode // the one that goes farthest first
	// Gain is what the record counts an acceleration as: 1 where it counts mm/s2.
	Gain float64
	// RisesDown and RisesUp tell that the response rises to an end of the band: whether
	// that is a resonance cannot be told.
	RisesDown, RisesUp bool
	Scatter            float64 // how far what was read is from that, in what it may be
	fitted             []float64
}

// At is what was fitted at a frequency: how many times as far as its foot the load goes.
func (m Modes) At(frequency float64) float64 { return size(m.fitted, frequency) / m.Gain }

// Springs finds the resonances that the points show.
func Springs(points []Point, expected float64) Modes {
	var out Modes
	tops := peaks(points)
	out.RisesDown, out.RisesUp = ends(points)
	f := fitting{points: points}
	if len(tops) == 0 {
		out.Gain = f.level()
		out.fitted = []float64{math.Log(out.Gain)}
		return out
	}
	start := []float64{math.Log(f.level())}
	for _, t := range tops {
		width := halfPower(points, t, expected)
		start = append(start, math.Log(points[t].Frequency), math.Log(width), 2*width*points[t].Response/f.level())
	}
	p, rest := f.best(start)
	out.Gain, out.fitted = math.Exp(p[0]), p
	free := max(len(points)-len(p), 1)
	out.Scatter = math.Sqrt(rest / float64(free))
	sure := f.sure(p, max(1, rest/float64(free)))
	for i := 1; i < len(p); i += 3 {
		m := Mode{Spring: spring.Spring{Frequency: math.Exp(p[i]), Damping: math.Exp(p[i+1])}, Share: p[i+2]}
		m.FrequencySure, m.DampingSure = m.Spring.Frequency*sure[i], m.Spring.Damping*sure[i+1]
		m.Top = out.At(m.Spring.Frequency)
		down, up := m.beyond(points)
		out.RisesDown, out.RisesUp = out.RisesDown || down, out.RisesUp || up
		if !down && !up && m.told() {
			out.Modes = append(out.Modes, m)
		}
	}
	slices.SortFunc(out.Modes, func(a, b Mode) int { return -cmp.Compare(a.Top, b.Top) })
	return out
}

// vague is the share that a resonance may be uncertain by and still be one.
const vague = 0.5

// told tells whether a mode is a resonance.
func (m Mode) told() bool { return m.Spring.Damping < broad && m.DampingSure < vague*m.Spring.Damping }

// beyond tells whether a mode's half-power width reaches beyond an end of the band: a side
// that was not seen may be the flank of anything.
func (m Mode) beyond(points []Point) (down, up bool) {
	f, half := m.Spring.Frequency, m.Spring.Frequency*m.Spring.Damping
	return f-half < points[0].Frequency, f+half > points[len(points)-1].Frequency
}

// peaks are the points that stand out from the valleys to both sides, at most mostModes,
// upward. An end of the band is none.
func peaks(points []Point) []int {
	var out []int
	for i := 1; i+1 < len(points); i++ {
		top := points[i]
		if points[i-1].Response >= top.Response || points[i+1].Response > top.Response {
			continue
		}
		if v := max(valley(points, i, -1), valley(points, i, +1)); top.stands(v) {
			out = append(out, i)
		}
	}
	slices.SortFunc(out, func(a, b int) int { return -cmp.Compare(points[a].Response, points[b].Response) })
	out = out[:min(len(out), mostModes)]
	slices.Sort(out)
	return out
}

// stands tells whether a point stands out from a valley.
func (p Point) stands(valley float64) bool {
	return p.Response > stands*valley && p.Response-valley > clear*p.Sigma
}

// valley is the least response from a point to one side, up to where it is higher again.
func valley(points []Point, from, step int) float64 {
	low := points[from].Response
	for i := from + step; i >= 0 && i < len(points) && points[i].Response <= points[from].Response; i += step {
		low = min(low, points[i].Response)
	}
	return low
}

// ends tells whether the response rises from a valley to either end of the band, or to a
// top beside it from which it does not fall again.
func ends(points []Point) (down, up bool) {
	turned := slices.Clone(points)
	slices.Reverse(turned)
	return rises(points), rises(turned)
}

// rises tells whether the response rises to the first point.
func rises(points []Point) bool {
	top := points[0]
	for _, p := range points {
		switch {
		case p.Response > top.Response:
			top = p
		case top.stands(p.Response):
			return !top.stands(points[0].Response)
		}
	}
	return false
}

// halfPower is the damping by the width of a peak at which it is lower by the root of two
// (Ewins, Modal Testing, ISBN 978-0-86380-218-8, section 4.2); what is expected where the peak
// does not fall so far on either side.
func halfPower(points []Point, top int, expected float64) float64 {
	side := func(step int) float64 {
		half := points[top].Response / math.Sqrt2
		for i := top + step; i >= 0 && i < len(points); i += step {
			a, b := points[i-step], points[i]
			switch {
			case b.Response <= half:
				f := a.Frequency + (b.Frequency-a.Frequency)*(a.Response-half)/(a.Response-b.Response)
				return math.Abs(f - points[top].Frequency)
			case b.Response > points[top].Response:
				return 0
			}
		}
		return 0
	}
	a, b := side(-1), side(+1)
	if a == 0 || b == 0 {
		a, b = max(a, b), max(a, b)
	}
	if a == 0 {
		return expected
	}
	return min((a+b)/(2*points[top].Frequency), broad)
}

// size is how large the response of modes on a shaken foot is, p being the logarithm of a
// gain and, for each mode, the logarithms of its frequency and damping, and its share: the
// load goes with its foot, and each mode beside it (Ewins, section 2; of one with a share
// of 1 this is the transmissibility of a damped spring: Inman, Engineering Vibration,
// section 2.4).
func size(p []float64, frequency float64) float64 {
	h := complex(1, 0)
	for i := 1; i < len(p); i += 3 {
		r := frequency / math.Exp(p[i])
		h += complex(p[i+2]*r*r, 0) / complex(1-r*r, 2*math.Exp(p[i+1])*r)
	}
	return math.Exp(p[0]) * cmplx.Abs(h)
}

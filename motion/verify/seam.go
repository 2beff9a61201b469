package verify

import (
	"fmt"
	"math"

	"seamrail/motion/base/unit"
	"seamrail/motion/verify/trace"
)

// AxisSeam is what one axis does at the wrap: the jump of each derivative from
// the last instant of the loop to the first, in mm or degrees and seconds.
type AxisSeam struct {
	Axis         string
	Rotary       bool
	Position     float64
	Velocity     float64
	Acceleration float64
	Jerk         float64
	// Highest is the highest derivative that is continuous: 0 position, 1
	// velocity, 2 acceleration, 3 jerk, -1 none.
	Highest int
	Words   string // what a camera operator would see
	// Cut is how far the picture's loop is cut back, in mm or degrees, beside
	// which Position is counted; 0 in a loop that closes without.
	Cut float64
	// Told is the least jump of each derivative that is told from none, by what can be
	// measured here.
	Told [4]float64
}

// stencil is the number of samples each one-sided derivative is taken from.
// Seven give sixth order in position, fourth in jerk.
const stencil = 7

// seamShare is how small, as a share of the greatest value in the loop, a jump
// must be to count as none. Finite differences of a smooth motion come this
// close; an eye sees nothing below a hundredth.
var seamShare = [4]float64{1e-9, 1e-6, 1e-4, 1e-2}

func measureSeam(m Motion, i int, p peaks) AxisSeam {
	return wrap{m.Period().Float(), m.Advance(i).Float()}.measure(m, i, p)
}

// wrap is where a loop meets its start again: the real seconds after which it
// does, and what the axis has gained by then.
type wrap struct {
	end, gained float64
}

func (w wrap) measure(m Motion, i int, p peaks) AxisSeam {
	a := m.Limits(i)
	frame := m.FrameSeconds(1).Float()
	after := func(sec float64) float64 { return m.Position(i, sec) }
	before := func(sec float64) float64 { return m.Position(i, w.end-sec) - w.gained }
	s := AxisSeam{Axis: a.Name, Rotary: a.Rotary, Highest: -1}
	size := w.size(after, before, p)
	scale := [5]float64{math.Max(1, p.hi-p.lo), p.speed, p.acc, p.jerk}
	out := [4]*float64{&s.Position, &s.Velocity, &s.Acceleration, &s.Jerk}
	smooth := true
	for d := range out {
		higher := 2 * scale[d+1]
		if d == 0 {
			higher = 0 // a place is known without a window
		}
		to, from := derivative(after, frame, size, higher, d), derivative(before, frame, size, higher, d)
		sign := 1 - 2*float64(d%2)
		*out[d] = to.value - sign*from.value
		s.Told[d] = seamShare[d]*scale[d] + to.err + from.err
		if math.Abs(*out[d]) <= s.Told[d] {
			*out[d] = 0
		}
		smooth = smooth && *out[d] == 0
		if smooth {
			s.Highest = d
		}
	}
	s.Words = words(s.Highest)
	return s
}

// seamWeights are the weights of the forward difference quotients of seven
// points for derivatives 0 to 3 (B. Fornberg, Math. Comp. 51:699-706, 1988,
// DOI 10.1090/S0025-5718-1988-0935077-0; the tests hold them to polynomials).
var seamWeights = [4][stencil]float64{
	{1},
	{-49.0 / 20, 6, -15.0 / 2, 20.0 / 3, -15.0 / 4, 6.0 / 5, -1.0 / 6},
	{203.0 / 45, -87.0 / 5, 117.0 / 4, -254.0 / 9, 33.0 / 2, -27.0 / 5, 137.0 / 180},
	{-49.0 / 8, 29, -461.0 / 8, 62, -307.0 / 8, 13, -15.0 / 8},
}

func oneSided(x [stencil]float64, h float64, d int) float64 {
	sum := 0.0
	for k, w := range seamWeights[d] {
		sum += w * (x[k] - x[0])
	}
	if d == 0 {
		sum = x[0]
	}
	return sum / math.Pow(h, float64(d))
}

// size is the greatest number that positions on both sides were rounded at, in
// mm or degrees: where it is, what it has gained, and how far it goes in the time
// at which it was asked.
func (w wrap) size(after, before side, p peaks) float64 {
	size := math.Max(1, p.speed*w.end)
	return math.Max(size, math.Max(math.Abs(after(0)), math.Abs(before(0))+math.Abs(w.gained)))
}

func seamNoise(size, h float64, d int) float64 {
	weight := 0.0
	for _, w := range seamWeights[d] {
		weight += math.Abs(w)
	}
	return 4 * machineNoise * size * weight / math.Pow(h, float64(d))
}

func words(highest int) string {
	switch highest {
	case -1:
		return "jumps: the picture cuts to another place at every repeat"
	case 0:
		return "kicks: it is in the right place but changes speed at once, and the eye catches it"
	case 1:
		return "nudges: speed carries through, the push behind it does not; soft movers show a tick"
	case 2:
		return "flows: place, speed and push all carry through; nobody will find the cut"
	}
	return "flows without a trace: place, speed, push and even its change carry through"
}

// finding holds the seam to the promise of a loop: it must be in the right
// place at the right speed. A jump of acceleration or jerk is told, not
// refused: the limits speak of those.
func (s AxisSeam) finding() Finding {
	d := dims(trace.Axis{Rotary: s.Rotary})
	return Finding{Axis: s.Axis, Check: "seam", OK: s.Highest >= 1,
		Text: fmt.Sprintf("%s; jumps of %s, %s, %s, %s", s.Words, unit.Format(s.Position, d[0]),
			unit.Format(s.Velocity, d[1]), unit.Format(s.Acceleration, d[2]), unit.Format(s.Jerk, d[3]))}
}

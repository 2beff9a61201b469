package calibrate

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"

	"seamrail/motion/base/list"
)

// Ruler is what marks are read with.
type Ruler struct {
	Division float64 // mm or degrees; a mark is read to the nearest
	// Wrong is the most that the ruler itself may be out over the stretch.
	Wrong float64
}

// ClassTwo is the most that a ruler of accuracy class II may be out over a length in mm:
// 0.3 mm, and 0.2 mm for each metre that has begun (Directive 2014/32/EU, annex X,
// MI-008; from memory, as the
// directive's table has it).
func ClassTwo(length float64) float64 {
	const metre, base, each = 1000, 0.3, 0.2
	return base + each*math.Ceil(math.Abs(length)/metre)
}

// Stretch is a way that the axis was told to go, and the ruler at both ends of it.
type Stretch struct {
	Told     float64 // mm or degrees, by the rig file; not 0
	From, To float64 // as read
}

func (s Stretch) measured() float64 { return s.To - s.From }

// Scale is how far an axis goes for what it is told.
type Scale struct {
	Ratio Estimate // measured over told; below 0 it goes the other way
	Told  float64  // the mean stretch it rests on, mm or degrees, > 0
	sigma float64  // standard uncertainty of a stretch, by its two marks and the ruler
}

// contradiction is how many standard uncertainties two readings of one thing may differ
// by: a thousand pairs differ by more three times.
const contradiction = 3

// Scale finds how far the axis goes for what it is told, from stretches of about one
// length. It fails where there is none, where one is of nothing, and where two contradict
// each other.
//
// Reading a mark again catches a slip and makes nothing surer: it is rounded to the same
// division each time (JCGM 100, F.2.2.1). What readings that do not contradict each other
// differ by is that rounding as well.
func (r Ruler) Scale(stretches []Stretch) (Scale, error) {
	if len(stretches) == 0 {
		return Scale{}, fmt.Errorf("a scale needs two marks")
	}
	mark := math.Sqrt2 * even(r.Division/2).sigma
	var ratios []float64
	for i, s := range stretches {
		if s.Told == 0 || s.measured() == 0 {
			return Scale{}, fmt.Errorf("stretch %d: the marks are %g apart for a way of %g; both must be more than nothing", i+1, s.measured(), s.Told)
		}
		ratios = append(ratios, s.measured()/s.Told)
		if off := math.Abs(ratios[i] - ratios[0]); off > contradiction*math.Sqrt2*mark/math.Abs(s.Told) {
			return Scale{}, fmt.Errorf("the readings contradict each other: %.5g and %.5g for each one told; read both marks again", ratios[0], ratios[i])
		}
	}
	told := stat.Mean(list.Map(stretches, func(s Stretch) float64 { return math.Abs(s.Told) }), nil)
	s := Scale{Told: told, sigma: joined(0, part{mark, math.Inf(1)}, even(r.Wrong)).Sigma}
	s.Ratio = Estimate{stat.Mean(ratios, nil), s.sigma / told, math.Inf(1)}
	return s, nil
}

// Steps is how many steps a unit are true, where so many are taken now.
func (s Scale) Steps(now float64) Estimate {
	k := math.Abs(s.Ratio.Value)
	return Estimate{now / k, now * s.Ratio.Sigma / (k * k), s.Ratio.Free}
}

// Off is how much further than a way that it is told the axis goes; the same once the
// steps have been set right is nothing, give or take the bound.
func (s Scale) Off(way float64) Estimate {
	e := s.Ratio.times(way)
	e.Value = (math.Abs(s.Ratio.Value) - 1) * way
	return e
}

// Needed says how far apart marks would have to be, so that a way is known within a bound,
// both in mm or degrees.
func (s Scale) Needed(way, bound float64) float64 {
	return Estimate{Sigma: s.sigma}.Bound() * way / bound
}

// Slip is a reading that is out by what one unit is of another.
type Slip struct {
	Factor float64 // what readings are to be multiplied by, if it is one
	Words  string
}

// slips are the mistakes that rulers invite, by the ratio of what was read to what was
// told.
var slips = []Slip{
	{10, "ten times off: centimetres written as mm?"}, {0.1, "ten times off: millimetres written as cm?"},
	{25.4, "25.4 times off: inches written as mm?"}, {1 / 25.4, "25.4 times off: millimetres written as inches?"},
	{2.54, "2.54 times off: inches written as cm?"}, {1 / 2.54, "2.54 times off: centimetres written as inches?"},
	{1000, "a thousand times off: metres written as mm?"}, {1.0 / 1000, "a thousand times off: millimetres written as metres?"},
}

// slipNear is how near to such a factor a ratio is suspicious, as a share: nobody is
// that far out with the teeth of a pulley and as near to a unit by chance, but for 2.54.
const slipNear = 0.15

// Slip tells whether the ratio smells of a wrong unit.
func (s Scale) Slip() (Slip, bool) {
	for _, slip := range slips {
		if math.Abs(math.Abs(s.Ratio.Value)*slip.Factor-1) < slipNear {
			return slip, true
		}
	}
	return Slip{}, false
}

// MarkSlip is one mark that was read ten times off, while the other was not.
type MarkSlip struct {
	Mark        string // a or b
	Read, Meant float64
	Mended      []Stretch
}

// OneMarkSlip tells whether one mark alone read ten times off is all that keeps an axis from
// having gone as far as it was told. Where the whole way is off by a unit, both marks are.
func OneMarkSlip(seen []Stretch) (MarkSlip, bool) {
	asTold := func(s Stretch) bool { return math.Abs(s.measured()/s.Told-1) < slipNear }
	if len(seen) == 0 || slices.ContainsFunc(seen, asTold) {
		return MarkSlip{}, false
	}
	for _, k := range []float64{10, 0.1} {
		a := list.Map(seen, func(s Stretch) Stretch { return Stretch{s.Told, s.From * k, s.To} })
		b := list.Map(seen, func(s Stretch) Stretch { return Stretch{s.Told, s.From, s.To * k} })
		for _, m := range []MarkSlip{{"a", seen[0].From, a[0].From, a}, {"b", seen[0].To, b[0].To, b}} {
			if s := m.Mended[0]; s.From*s.To != 0 && asTold(s) { // from 0 on, one mark is the whole way
				return m, true
			}
		}
	}
	return MarkSlip{}, false
}

// ToDivision is what is read of a place, to the nearest division.
func ToDivision(at, division float64) float64 { return math.Round(at/division) * division }

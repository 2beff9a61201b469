package sweep

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"seamrail/motion/vibration/ringdown"
)

const (
	// fastest is the share of a record's rate up to which a frequency is told from one
	// beyond half that rate, which looks like it: a little below that half, since phones
	// measure unevenly.
	fastest = 0.4
	// harmonics are the odd ones that are kept apart from the frequency itself: a foot
	// that goes to and fro at a steady speed makes them all, and no even ones.
	harmonics = 9
	// perUnknown is how many samples there must be to each number that is fitted.
	perUnknown = 2
	// tail is how long, in s, before a burst is over it is not read any more: a board that
	// is asked whether it rests, or dwells in grains, tells so a fifth of a second late.
	tail = 0.25
)

// Point is what the load did at a frequency.
type Point struct {
	Frequency float64
	Response  float64 // acceleration of the record over that of the foot
	Sigma     float64 // its standard uncertainty, by what is left over
}

// Reading is what a record says of a sweep.
type Reading struct {
	Clock   Clock
	Rate    float64 // samples/s, the usual
	Column  int
	Points  []Point
	Aliased float64 // Hz, above which the record tells nothing of the sweep; 0 = it tells all
}

// Read lays a record beside a sweep and reads what the load did at each frequency. It
// fails where no mark is seen, where the record leaves some of the sweep out, and where
// fewer than five frequencies can be told.
func Read(l Log, r ringdown.Record) (Reading, error) {
	out := Reading{Column: r.Liveliest()}
	values := r.Series[out.Column]
	held, swept := r.Times[len(r.Times)-1]-r.Times[0], l.Bursts[len(l.Bursts)-1].To-l.Bursts[0].From
	if held > longestRecord {
		return out, fmt.Errorf("the record goes on for %.3g s: is its first column the time?", held)
	}
	if held < swept {
		return out, fmt.Errorf("the record is too short: it holds %.1f s, and the sweep went on for %.1f s", held, swept)
	}
	c, err := l.align(r.Times, values)
	if err != nil {
		return out, err
	}
	out.Clock = c
	var steps []float64
	for i := 1; i < len(r.Times); i++ {
		steps = append(steps, r.Times[i]-r.Times[i-1])
	}
	out.Rate = 1 / median(steps)
	for _, s := range l.Bursts {
		if s.Frequency > fastest*out.Rate {
			out.Aliased = fastest * out.Rate
			continue
		}
		p, err := out.point(s, r.Times, values)
		if err != nil {
			return out, err
		}
		out.Points = append(out.Points, p)
	}
	slices.SortFunc(out.Points, func(a, b Point) int { return cmp.Compare(a.Frequency, b.Frequency) })
	if len(out.Points) < FewestBursts {
		return out, fmt.Errorf("the record has %.3g samples a second, which tell nothing above %.3g Hz: let the phone measure faster", out.Rate, fastest*out.Rate)
	}
	return out, nil
}

// point reads one frequency.
func (o Reading) point(s Burst, times, values []float64) (Point, error) {
	from, to := o.Clock.Of(s.To-tail-readShare*(s.To-s.From)), o.Clock.Of(s.To-tail)
	if from < times[0] || to > times[len(times)-1] {
		return Point{}, fmt.Errorf("the record does not hold %.3g Hz, which was swept from %.1f to %.1f s of it, and it has %.1f to %.1f s", s.Frequency, from, to, times[0], times[len(times)-1])
	}
	var at, felt []float64
	for i, t := range times {
		if t >= from && t <= to {
			at, felt = append(at, o.Clock.back(t)-s.From), append(felt, values[i])
		}
	}
	waves := 0
	for n := 1; n <= harmonics && float64(n)*s.Frequency <= fastest*o.Rate; n += 2 {
		waves++
	}
	unknowns := 2 + 2*waves
	if len(at) < perUnknown*unknowns {
		return Point{}, fmt.Errorf("the record has %d samples while %.3g Hz was read, and %d are needed", len(at), s.Frequency, perUnknown*unknowns)
	}
	cos, sin, sure, err := waved(at, felt, s.Frequency, waves)
	return Point{s.Frequency, math.Hypot(cos, sin) / s.Push, sure / s.Push}, err
}

// waved fits a level, a drift, and a wave of a frequency with its odd harmonics by least
// squares. It returns the wave itself and the standard uncertainty of its size, taking what
// is left over as noise that differs from sample to sample.
func waved(at, felt []float64, frequency float64, waves int) (cos, sin, sure float64, err error) {
	n, k := len(at), 2+2*waves
	a, y := mat.NewDense(n, k, nil), mat.NewVecDense(n, felt)
	for i, t := range at {
		a.Set(i, 0, 1)
		a.Set(i, 1, t-at[0])
		for h := range waves {
			s, c := math.Sincos(2 * math.Pi * frequency * float64(2*h+1) * t)
			a.Set(i, 2+2*h, c)
			a.Set(i, 3+2*h, s)
		}
	}
	var x, rest mat.VecDense
	if x.SolveVec(a, y) != nil {
		return 0, 0, 0, errors.New("the samples of the record lie so that no wave can be told from them")
	}
	rest.MulVec(a, &x)
	rest.SubVec(y, &rest)
	noise := math.Pow(mat.Norm(&rest, 2), 2) / float64(n-k)
	return x.AtVec(2), x.AtVec(3), math.Sqrt(2 * noise / float64(n)), nil
}

package rampfit

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"seamrail/motion/law"
)

// Fit is a law laid through the readings of a take, as near as it comes. Sures are
// standard uncertainties, 0 where the readings do not tell.
type Fit struct {
	Law         string
	Start, Way  float64 // s: when it sets out, and how long the way takes
	WaySure     float64
	Ramp        float64 // share of the way's time that each ramp takes; 0 of a law without ramps
	RampSure    float64
	Seconds     float64 // s, the same as a time
	SecondsSure float64
	JerkShare   float64 // of the ramp; 0 of a law that takes none
	JerkSure    float64
	From, To    float64 // units, both ends
	RMS, Worst  float64 // units, what is left over
	WorstAt     float64 // s
	Fits        bool    // no further off than the readings are unsure
	law         law.Law
	score       float64 // smaller is likelier
	stuck       bool    // a share at its bound: it is another law then
}

// Found is what a take tells.
type Found struct {
	Take Take
	Sure float64 // units, standard uncertainty of a reading that was taken
	Best Fit     // the likeliest of those that fit; where none does, of all
	All  []Fit   // every law, likeliest first
}

// known is how many standard deviations of chi-squared what is left over may be beyond what
// the readings are unsure by, before no law is said to fit: with v degrees of freedom it is v
// on the average, and its variance is 2 v (JCGM 100:2008, and any text on statistics).
const known = 4

// Find lays every law of the catalogue through a take. A reading is sure to a standard
// uncertainty; 0 takes one of its last digit either way, evenly spread: that over the root
// of 3 (JCGM 100:2008, 4.3.7). A take that comes back is cut where it turns round.
//
// Of laws that fit, the likeliest is that of the least chi-squared with the number of its
// unknowns paid for (G. Schwarz, Annals of Statistics 6:461-464, 1978, DOI
// 10.1214/aos/1176344136). It fails where nothing moves.
func Find(t Take, sure float64) (Found, error) {
	if sure <= 0 {
		sure = t.Grain / math.Sqrt(3)
	}
	t.Readings = oneWay(t.Readings, sure)
	out := Found{Take: t, Sure: sure}
	low, high := span(t.Readings)
	if n := len(t.Readings); n < leastReadings {
		return out, fmt.Errorf("one way of it has %d readings, and it takes %d or more: read more frames", n, leastReadings)
	}
	if !(high-low > minSpan*sure) {
		return out, errors.New("nothing moves in it by more than a reading is unsure")
	}
	for _, s := range shapes() {
		if f, ok := through(s, t.Readings, sure); ok {
			out.All = append(out.All, f)
		}
	}
	if len(out.All) == 0 {
		return out, errors.New("no law can be laid through it: it needs readings before, on and after the way")
	}
	slices.SortStableFunc(out.All, func(a, b Fit) int {
		return cmp.Or(worse(b.Fits, a.Fits), worse(a.stuck, b.stuck), cmp.Compare(a.score, b.score))
	})
	out.Best = out.All[0]
	return out, out.Best.whole(t.Readings, sure)
}

// whole tells whether both ends of the way were seen: what a law that fits does before the
// first reading, or after the last, is no more than chance makes of a reading. A ramp that
// was not seen is only what the law has at the other end.
func (f Fit) whole(all []Reading, sure float64) error {
	first, last := all[0].Seconds, all[len(all)-1].Seconds
	unseen := func(sec, end float64) bool { return math.Abs(f.At(sec)-end) > known*sure }
	switch {
	case !f.Fits:
		return nil
	case unseen(first, f.From):
		return fmt.Errorf("by the %s law it sets out at %.3f s, before the first reading, at %.3f s: read some frames in which it rests", f.Law, f.Start, first)
	case unseen(last, f.To):
		return fmt.Errorf("by the %s law it arrives at %.3f s, after the last reading of one way, at %.3f s: read on until it rests", f.Law, f.Start+f.Way, last)
	}
	return nil
}

// At is where the law has it at a time.
func (f Fit) At(sec float64) float64 {
	return f.From + (f.To-f.From)*at(f.law, f.Start, f.Way, sec)
}

// worse orders by whether something holds, what does not first.
func worse(a, b bool) int {
	switch {
	case a == b:
		return 0
	case b:
		return -1
	}
	return 1
}

// minSpan is how many uncertainties of a reading the way must be long: laws differ by some
// hundredths of their way, and in one that is shorter all of them fit.
const minSpan = 10

func span(all []Reading) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, r := range all {
		low, high = math.Min(low, r.Position), math.Max(high, r.Position)
	}
	return low, high
}

const (
	// turned is by how much of the way it must have come back so that it has turned round:
	// as much as a frame that swings after a stop may come back by itself.
	turned = 0.02
	// atFarEnd is how many uncertainties a reading lies from the farthest where it stands
	// there: that one is about as much beyond where it stands as chance makes the greatest
	// of some.
	atFarEnd = 2
)

// oneWay cuts a take where it has come back from the far end, at the last reading there.
func oneWay(all []Reading, sure float64) []Reading {
	if len(all) == 0 {
		return all
	}
	low, high := span(all)
	far := high
	if high-all[0].Position < all[0].Position-low {
		far = low
	}
	slack, last := atFarEnd*sure, 0
	if math.Abs(all[len(all)-1].Position-far) <= turned*(high-low) {
		return all
	}
	for i, r := range all {
		if math.Abs(r.Position-far) <= slack {
			last = i
		}
	}
	return all[:last+1]
}

// through is the best of what is found from all beginnings.
func through(s shape, all []Reading, sure float64) (Fit, bool) {
	var best *fit
	for _, shares := range s.begins() {
		f := &fit{shape: s, readings: all}
		begin, ok := guess(s, all, shares)
		if ok && f.search(begin) && (best == nil || f.rest < best.rest) {
			best = f
		}
	}
	if best == nil {
		return Fit{}, false
	}
	return best.result(sure), true
}

// guess is when a law would set out and how long it would take, by when a tenth and nine
// tenths of the way are done.
func guess(s shape, all []Reading, shares []float64) ([]float64, bool) {
	l := s.law(shares)
	if l == nil {
		return nil, false
	}
	early, late := crosses(all, 0.1), crosses(all, 0.9)
	u, v := reaches(l, 0.1), reaches(l, 0.9)
	way := (late - early) / (v - u)
	return append([]float64{early - u*way, way}, shares...), way > 0
}

// crosses is when a share of the way is first done, between two readings along a line.
func crosses(all []Reading, share float64) float64 {
	from, to := all[0].Position, all[len(all)-1].Position
	done := func(r Reading) float64 { return (r.Position - from) / (to - from) }
	for i := 1; i < len(all); i++ {
		if a, b := done(all[i-1]), done(all[i]); b >= share && b > a {
			return all[i-1].Seconds + (all[i].Seconds-all[i-1].Seconds)*math.Max(0, (share-a)/(b-a))
		}
	}
	return all[len(all)-1].Seconds
}

func (f *fit) result(sure float64) Fit {
	n, k := float64(len(f.readings)), len(f.p)+2
	out := Fit{Law: f.shape.kind.Name(), Start: f.p[0], Way: f.p[1], From: f.from, To: f.from + f.span,
		RMS: math.Sqrt(f.rest / n), law: f.curve(f.p)}
	free := math.Max(1, n-float64(k))
	chi := f.rest / (sure * sure)
	out.Fits = chi <= free+known*math.Sqrt(2*free)
	out.score = chi + float64(k)*math.Log(n)
	for _, r := range f.readings {
		if d := math.Abs(r.Position - out.At(r.Seconds)); d > out.Worst {
			out.Worst, out.WorstAt = d, r.Seconds
		}
	}
	c := f.covariance(math.Max(sure*sure, f.rest/free))
	out.WaySure = deviation(c, 1)
	if len(f.p) > 2 {
		out.Ramp, out.RampSure = f.p[2], deviation(c, 2)
		out.Seconds, out.SecondsSure = f.p[2]*f.p[1], f.rampSure(c)
	}
	if len(f.p) > 3 {
		out.JerkShare, out.JerkSure = f.p[3], deviation(c, 3)
	}
	out.stuck = slices.ContainsFunc(f.p[2:], func(x float64) bool { return x < 2*leastShare })
	return out
}

func deviation(c *mat.SymDense, i int) float64 {
	if c == nil || !(c.At(i, i) > 0) {
		return 0
	}
	return math.Sqrt(c.At(i, i))
}

// rampSure is the standard uncertainty of the ramp as a time, a product of two unknowns.
func (f *fit) rampSure(c *mat.SymDense) float64 {
	if c == nil {
		return 0
	}
	way, share := f.p[1], f.p[2]
	return math.Sqrt(math.Max(0, way*way*c.At(2, 2)+share*share*c.At(1, 1)+2*way*share*c.At(1, 2)))
}

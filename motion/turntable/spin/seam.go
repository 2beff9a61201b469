package spin

import (
	"math"

	"seamrail/motion/base/exact"
)

// Seam is how one loop closes for one product.
type Seam struct {
	Product Product
	Speed   Speed
	Capture exact.Rat // frames a second
	Turns   exact.Rat // that the stand makes in the loop
	Match   int64     // the m of m/Symmetry turns that it should have made, at least 1
	Error   exact.Rat // turns beyond Match/Symmetry; below 0 where it falls short
	Spread  exact.Rat // standard uncertainty of Error, turns: Turns*Sigma/Period
	Bound   exact.Rat // turns
}

// Closes tells whether the error is within the bound, the period being as
// stated.
func (s Seam) Closes() bool { return !s.Bound.Less(s.Error.Abs()) }

// Coverage is how many standard uncertainties are taken for sure: two hold some
// 95 % (JCGM 100:2008, Guide to the expression of uncertainty in measurement,
// 6.3, DOI 10.59161/JCGM100-2008E).
const Coverage = 2

// Sure tells whether it closes even when the period is off by Coverage standard
// uncertainties either way.
func (s Seam) Sure() bool {
	return !s.Bound.Less(s.leastDoubt())
}

// Certain tells whether it is sure and stays so when the speed is off by all of
// the stand's regulation. Where nothing is known of that, nothing is certain but
// what is wider than half a face: no product is further from one.
func (s Seam) Certain() bool {
	if !s.Bound.Less(exact.New(1, 2*s.Product.Symmetry)) {
		return s.Closes()
	}
	return s.Product.Stand.Regulated && !s.Bound.Less(s.leastDoubt().Add(s.Off(s.Product.Stand.Regulation)))
}

// leastDoubt is how many turns it may be off while the speed holds.
func (s Seam) leastDoubt() exact.Rat { return s.Error.Abs().Add(s.Spread.Mul(exact.Int(Coverage))) }

// Bears returns the share by which the speed may be off while it runs for the
// bound to be kept, and false where not even a steady speed is known to keep it.
func (s Seam) Bears() (exact.Rat, bool) {
	if !s.Sure() || s.Turns.Sign() == 0 {
		return exact.Rat{}, false
	}
	return s.Bound.Sub(s.leastDoubt()).Quo(s.Turns), true
}

// Degrees returns the error in degrees, with its sign.
func (s Seam) Degrees() exact.Rat { return s.Error.Mul(exact.Int(360)) }

// Frames returns the error in captured frames, with its sign: how much later the
// last frame is than the instant of the match.
func (s Seam) Frames() exact.Rat { return s.Error.Mul(s.PerTurn()) }

// PerTurn returns the captured frames that a turn takes.
func (s Seam) PerTurn() exact.Rat { return s.Speed.Period.Mul(s.Capture) }

// Millimetres returns the error as a chord at the product's radius, in mm, at
// least 0: 2R sin(pi e). It is the straight way between where a point is and
// where it should be, and no view of it shows more. It is 0 without a radius.
func (s Seam) Millimetres() float64 { return s.Product.Chord(s.Error) }

// Pixels returns Millimetres in pixels of the picture; 0 without a camera.
func (s Seam) Pixels() float64 { return s.Millimetres() * s.Product.Scale.Float() }

// Chord returns how far apart, in mm, two points at the product's radius are
// that are so many turns apart.
func (p Product) Chord(turns exact.Rat) float64 {
	return 2 * p.Radius.Float() * math.Abs(math.Sin(math.Pi*turns.Frac().Float()))
}

// Rim returns the speed of the outermost point, in mm a real second.
func (s Seam) Rim() float64 {
	return 2 * math.Pi * s.Product.Radius.Float() / s.Speed.Period.Float()
}

// Shows returns after how many rounds filmed one after another the product is
// further off than the bound, and false where it never is. The clip itself does
// not drift: its seam is the same at every repeat.
func (s Seam) Shows() (rounds int64, ever bool) {
	if s.Error.Sign() == 0 {
		return 0, false
	}
	n := s.Bound.Quo(s.Error.Abs()).Floor().Add(exact.Int(1))
	whole, fits := n.Int64()
	return whole, fits
}

// Off returns the turns by which the seam moves when the stand is faster by a
// share of its speed, such as 1/100.
func (s Seam) Off(share exact.Rat) exact.Rat { return s.Turns.Mul(share) }

// Dissolve returns over how many timeline frames a cross-dissolve must spread
// the error so that no frame shifts by more than the bound; 1 is a plain cut.
// While it lasts, edges are double by the whole error.
func (s Seam) Dissolve() int64 {
	n, ok := s.Error.Abs().Quo(s.Bound).Ceil().Int64()
	if !ok {
		return math.MaxInt64
	}
	return max(1, n)
}

// weight is the mean square of the closing error that is to be expected, as a
// share of the bound: error and uncertainty count alike.
func (s Seam) weight() exact.Rat {
	e, u := s.Error.Quo(s.Bound), s.Spread.Quo(s.Bound)
	return e.Mul(e).Add(u.Mul(u))
}

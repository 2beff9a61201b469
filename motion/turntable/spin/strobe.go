package spin

import "seamrail/motion/base/exact"

// Strobe is how a product seems to turn from one picture to the next.
type Strobe struct {
	True     exact.Rat // turns a picture, at least 0
	Apparent exact.Rat // turns a picture as the eye joins them, within (-1/2k, 1/2k]; below 0 backwards
	Reversal exact.Rat // s a turn: faster than this it seems to turn backwards
	Still    exact.Rat // s a turn at which it seems to stand
	Slowest  exact.Rat // pictures a second below which it seems to turn backwards
}

// StrobeOf returns the strobe of a product of symmetry k that turns once in
// period seconds, seen in pictures of a rate a second. The eye joins each face to
// the nearest alike face of the next picture, so a turn of a a picture looks like
// a less the nearest multiple of 1/k: the relation of the wagon wheel, which is
// that of sampling (C. E. Shannon, Proc. IRE 37:10-21, 1949,
// DOI 10.1109/JRPROC.1949.232969). It panics if an argument is not above 0.
func StrobeOf(period, rate exact.Rat, k int64) Strobe {
	if period.Sign() <= 0 || rate.Sign() <= 0 || k < 1 {
		panic("spin: a strobe needs a period, a rate and a symmetry above 0")
	}
	sym := exact.Int(k)
	turn := period.Mul(rate).Inv()
	// Halves go down, so that exactly half a face is +1/2k.
	nearest := turn.Mul(sym).Sub(exact.New(1, 2)).Ceil()
	return Strobe{
		True:     turn,
		Apparent: turn.Sub(nearest.Quo(sym)),
		Reversal: sym.Mul(exact.Int(2)).Quo(rate),
		Still:    sym.Quo(rate),
		Slowest:  sym.Mul(exact.Int(2)).Quo(period),
	}
}

// Backwards tells whether it seems to turn the wrong way.
func (s Strobe) Backwards() bool { return s.Apparent.Sign() < 0 }

// Stands tells whether it seems to stand still though it turns.
func (s Strobe) Stands() bool { return s.Apparent.Sign() == 0 }

package spinreport

import (
	"seamrail/motion/base/exact"
	"seamrail/motion/turntable/spin"
)

// Keeps says what would make it known that a loop closes within its bound, or
// that no timing will; "" where it is known, or known not to.
func Keeps(s spin.Seam, a spin.Assume) string {
	if s.Certain() || !s.Closes() {
		return ""
	}
	stand := s.Product.Stand
	least := s
	least.Spread = exact.Rat{} // as if it had been timed for ever
	most, _ := least.Bears()
	if stand.Regulated && most.Less(stand.Regulation) {
		return "no timing will do on this stand: its speed wanders by up to " + share(stand.Regulation) + ", and " + atMost(most) +
			" would do; it takes a steadier stand, or a turntable that the rig turns"
	}
	words := ""
	if !s.Sure() {
		words = Needs(s, a)
		if words == "" {
			words = "time more of its turns"
		}
	}
	if stand.Regulated {
		return words
	}
	if words != "" {
		words += "; and "
	}
	return words + "say in the rig file how far its speed wanders while it runs (drift): " + atMost(most) + " would do"
}

func atMost(v exact.Rat) string {
	if v.Sign() == 0 {
		return "none at all"
	}
	return "at most " + share(v)
}

// share prints a part of one in per cent.
func share(v exact.Rat) string { return figures(v.Mul(exact.Int(100)).Float()) + " %" }

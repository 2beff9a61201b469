package spin

import "seamrail/motion/base/exact"

// Convergents returns the convergents of x with denominators of at most maxDen,
// in order, the whole part first: each is nearer to x than any fraction of a
// smaller denominator, and for no smaller denominator is q*x nearer to a whole
// number (A. Y. Khinchin, Continued Fractions, Dover 1997, theorems 16 and 17,
// ISBN 978-0-486-69630-0). With x the faces that a stand turns in a captured
// frame, the denominators are the frame counts after which the product is nearer
// to a match than after any fewer, 1/1 aside.
func Convergents(x exact.Rat, maxDen int64) []exact.Rat {
	var out []exact.Rat
	p0, q0, p1, q1 := exact.Int(0), exact.Int(1), exact.Int(1), exact.Int(0)
	limit := exact.Int(maxDen)
	for rest := x; ; rest = rest.Inv() {
		a := rest.Floor()
		p0, p1 = p1, a.Mul(p1).Add(p0)
		q0, q1 = q1, a.Mul(q1).Add(q0)
		if limit.Less(q1) {
			return out
		}
		out = append(out, p1.Quo(q1))
		if rest = rest.Sub(a); rest.Sign() == 0 {
			return out
		}
	}
}

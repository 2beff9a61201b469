// Package law holds normalised motion laws: how far along a move is, as a
// share s(u) of its travel, at a share u of its time.
//
// A law has no units. A move of travel D in time T has speed V*D/T,
// acceleration A*D/T^2 and jerk J*D/T^3, so its greatest values follow from
// the law's peak factors alone. The cam laws, harmonic, cycloidal, modified
// and polynomial, are those of R. L. Norton, Design of Machinery, McGraw-Hill,
// ISBN 978-0-07-352935-6, chapter on cams, and of VDI 2143-1:1980.
package law

// Point is a law at one u: the share of travel done and its first, second and
// third derivatives with respect to u.
type Point struct{ S, V, A, J float64 }

// Peaks holds the greatest absolute velocity, acceleration and jerk of a law
// over the open interval (0,1), limits at the ends included. A jump at an end,
// from or to rest, is not counted: it is there or not according to what comes
// before and after the move. A factor is +Inf where the quantity below it
// jumps inside the interval. AtV, AtA and AtJ are the first u at which each
// peak is reached, or approached.
type Peaks struct {
	V, A, J       float64
	AtV, AtA, AtJ float64
}

// Law is a normalised motion law: it goes from s(0) = 0 to s(1) = 1, never
// backwards, and is symmetric: s(1-u) = 1 - s(u).
type Law interface {
	// Name is the name the law is asked for by.
	Name() string
	// At returns the law at u. A u below 0 counts as 0 and above 1 as 1.
	// Where a derivative jumps, At gives the value just after the jump;
	// at u = 1 the value just before the end.
	At(u float64) Point
	// Peaks returns the exact peak factors.
	Peaks() Peaks
}

// Inverter is a Law that knows in closed form when a share of the travel is
// done.
type Inverter interface {
	// Inverse returns the u in [0,1] at which s(u) = s. An s below 0 counts
	// as 0 and above 1 as 1.
	Inverse(s float64) float64
}

// Breaker is a Law made of several formulas. Where one gives way to the next,
// acceleration, jerk or the slope of jerk jumps; between, all derivatives are
// smooth.
type Breaker interface {
	// Breaks returns those points in rising order, each inside (0,1). The
	// caller may keep and change the slice.
	Breaks() []float64
}

// fold clamps u to [0,1] and maps the second half on the first. The
// subtraction is exact, as u is between a half and twice 1.
func fold(u float64) (w float64, far bool) {
	if u <= 0 {
		return 0, false
	}
	if u >= 1 {
		return 0, true
	}
	if u >= 0.5 {
		return 1 - u, true
	}
	return u, false
}

// unfold maps a point of the first half back to where u was.
func unfold(p Point, far bool) Point {
	if far {
		p.S, p.A = 1-p.S, 0-p.A // 0-x, as -x would make -0 of 0
	}
	return p
}

// clamp limits a share to [0,1].
func clamp(s float64) float64 { return min(max(s, 0), 1) }

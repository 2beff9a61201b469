package optimal

import (
	"errors"
	"fmt"
	"math"
)

// Orders of derivatives.
const (
	Acceleration = 2
	Jerk         = 3
	Snap         = 4
)

// Bounds of what a law may cancel. Under half a swing none can without going
// backwards, beyond fifty any smooth law is quiet, and beyond a third of
// critical a swing dies before it is seen. A damping so small that nobody can
// measure it is none: its sines and cosines are too much alike.
const (
	MinSwings  = 0.5
	MaxSwings  = 50
	MinDamping = 0.001
	MaxDamping = 0.3
)

// Quiet says what a law is to leave at rest. The zero value asks for nothing.
type Quiet struct {
	Swings  float64 // of the undamped spring in the time of the move; 0: none
	Damping float64 // share of critical: 0, or MinDamping to MaxDamping
	// Robust asks that a frequency a little off leaves next to nothing either: the
	// residual has no slope there. It is for an undamped swing.
	Robust bool
}

// Check tells what is wrong, NaN included.
func (q Quiet) Check() error {
	switch {
	case q.Swings == 0 && q.Damping == 0 && !q.Robust:
		return nil
	case !(q.Swings >= MinSwings && q.Swings <= MaxSwings):
		return fmt.Errorf("%.4g swings in the time of a move must be from %g to %d", q.Swings, MinSwings, MaxSwings)
	case q.Damping != 0 && !(q.Damping >= MinDamping && q.Damping <= MaxDamping):
		return fmt.Errorf("damping %g must be 0, or from %g to %g of critical", q.Damping, MinDamping, MaxDamping)
	case q.Robust && q.Damping > 0:
		return errors.New("a robust law takes no damping: it leaves next to nothing of a lightly damped swing as it is")
	}
	return nil
}

// Softest is a law with proof of how soft it is.
type Softest struct {
	Law  *Law
	Size float64 // of its derivative, units of the law
	// Bound is what no law with the same ends and the same quiet can go below.
	Bound float64
}

// Excess is how far above the bound the law is, as a share of it: rounding.
func (s Softest) Excess() float64 { return s.Size/s.Bound - 1 }

// ErrBackwards says that the softest law goes backwards on its way.
var ErrBackwards = errors.New("so few swings fit into the move that to leave none it would have to go backwards; a longer move would do")

// What the laws are called: the softest of all, the softest that leaves a swing at
// rest, and the softest that does so robustly.
const (
	Name      = "softest"
	QuietName = "quiet"
	WideName  = "quiet-wide"
)

func (q Quiet) name() string {
	switch {
	case q.Robust:
		return WideName
	case q.Swings > 0:
		return QuietName
	}
	return Name
}

// Soften returns the law whose derivative of an order, Acceleration, Jerk or Snap,
// has the least greatest value of all that go from rest to rest, with all
// derivatives below that order 0 at both ends, and leave at rest what q says.
//
// It fails if q is out of bounds, if the law would go backwards (ErrBackwards), or
// if none was found (ErrNoLaw). It panics on another order.
func Soften(order int, q Quiet) (Softest, error) {
	if order < Acceleration || order > Snap {
		panic("optimal: an order is from 2 to 4")
	}
	if err := q.Check(); err != nil {
		return Softest{}, err
	}
	lead := power(order - 1)
	c, roots, err := search(lead, order, q)
	if err != nil {
		return Softest{}, err
	}
	changes := make([]float64, 0, len(roots))
	for i := len(roots) - 1; i >= 0; i-- {
		changes = append(changes, half-roots[i])
	}
	l := newLaw(q.name(), order, changes)
	if l.slowest() < -backwards {
		return Softest{}, ErrBackwards
	}
	// (n-1)!/2 over the integral of |x^(n-1) + ...|, whose lead is scaled to 1.
	bound := factorial(order-1) / 2 / (c.size(roots) * math.Pow(half, float64(order-1)))
	return Softest{l, l.Size(), bound}, nil
}

// asides are shares of the swings from whose law the search goes on where it
// stalls: near every fourth swing two roots have only just come into being.
var asides = []float64{0.98, 1.02, 0.95, 1.05, 0.99, 1.01, 0.97, 1.03, 0.92, 1.08}

// search finds the combination of least size and its roots.
func search(lead power, order int, q Quiet) (combination, []float64, error) {
	c, roots, err := nearest(lead, apart(basis(order, q)), q.Swings)
	if err == nil {
		return c, roots, nil
	}
	for _, share := range asides {
		beside := q
		beside.Swings *= share
		d, x, err := nearest(lead, apart(basis(order, beside)), beside.Swings)
		if err != nil {
			continue
		}
		d.basis = c.basis
		if p, y, ok := d.polish(x, q.Swings); ok {
			return p, y, nil
		}
	}
	return c, nil, ErrNoLaw
}

// backwards is the speed, as a share of the mean, that is rounding.
const backwards = 1e-12

func factorial(n int) float64 {
	out := 1.0
	for k := 2; k <= n; k++ {
		out *= float64(k)
	}
	return out
}

package against

import (
	"math"

	"gonum.org/v1/gonum/optimize"

	"seamrail/motion/vibration/spring"
)

// simplex improves a spring by which something leaves least (J. A. Nelder and R. Mead, Computer J.
// 7:308-313, 1965, DOI 10.1093/comjnl/7.4.308).
func simplex(s spring.Spring, low, high float64, rest func(spring.Spring) float64) spring.Spring {
	spot := func(x []float64) spring.Spring {
		return spring.Spring{Frequency: math.Exp(x[0]), Damping: math.Exp(x[1])}
	}
	problem := optimize.Problem{Func: func(x []float64) float64 {
		t := spot(x)
		if !(t.Frequency >= low && t.Frequency <= high && t.Damping >= leastDamping && t.Damping <= spring.MaxDamping) {
			return math.Inf(1)
		}
		return rest(t)
	}}
	start := []float64{math.Log(s.Frequency), math.Log(s.Damping)}
	set := &optimize.Settings{Converger: &optimize.FunctionConverge{Relative: 1e-9, Iterations: 30}, FuncEvaluations: 400}
	got, err := optimize.Minimize(problem, start, set, &optimize.NelderMead{SimplexSize: 0.02})
	if got == nil || err != nil && got.X == nil || !(got.F <= rest(s)) {
		return s
	}
	return spot(got.X)
}

// bends are the standard uncertainties of a spring, by how what is left over bends where it is
// least: the inverse of half the matrix of second derivatives, times the noise (W. H. Press et
// al., Numerical Recipes, 3rd ed., Cambridge 2007, ISBN 978-0-521-88068-8, section 15.5).
func bends(s spring.Spring, rest func(spring.Spring) float64, free float64) (fSure, dSure float64) {
	hf, hd := s.Frequency*1e-4, max(s.Damping*1e-2, 1e-5)
	at := func(f, d float64) float64 {
		return rest(spring.Spring{Frequency: s.Frequency + f*hf, Damping: s.Damping + d*hd})
	}
	least := at(0, 0)
	noise := least / max(1, free)
	ff := (at(1, 0) - 2*least + at(-1, 0)) / (2 * hf * hf)
	dd := (at(0, 1) - 2*least + at(0, -1)) / (2 * hd * hd)
	fd := (at(1, 1) - at(1, -1) - at(-1, 1) + at(-1, -1)) / (8 * hf * hd)
	det := ff*dd - fd*fd
	if !(det > 0 && ff > 0) {
		return math.Inf(1), math.Inf(1)
	}
	return math.Sqrt(noise * dd / det), math.Sqrt(noise * ff / det)
}

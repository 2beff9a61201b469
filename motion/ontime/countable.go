package ontime

import (
	"math"
	"strconv"

	"seamrail/motion/fault"
)

// mantissa is the bits of a number of single precision (IEEE 754).
const mantissa = 24

// countable returns after how many rounds the controller takes two steps of an axis
// for one, and which axis that is; 0 where it never does. An axis that gains by each
// round counts up, and a number of 24 bits is the coarser the greater it is: from
// 2^k on they are 2^(k-23) apart.
func (m *machine) countable() (rounds int64, axis int) {
	if !m.c.SinglePrecision {
		return 0, 0
	}
	for i, a := range m.axes {
		gain := math.Abs(m.advance[i].Float())
		if gain == 0 {
			continue
		}
		most := math.Exp2(math.Floor(mantissa - math.Log2(a.StepsPerUnit.Float())))
		if n := max(1, int64(most/gain)); rounds == 0 || n < rounds {
			rounds, axis = n, i
		}
	}
	return rounds, axis
}

// worn says that a take has more rounds than can be counted.
func (s *search) worn() (fault.Fault, bool) {
	if !s.best.uncountable() {
		return fault.Fault{}, false
	}
	_, axis := s.m.countable()
	f := at("rounds", strconv.FormatInt(s.rounds, 10), "count further up than numbers of 24 bits tell steps apart",
		"takes of "+strconv.FormatInt(s.best.Countable, 10)+" rounds would do; the controller begins to count anew when it is started anew")
	f.Axis = s.m.axes[axis].Name
	return f, true
}

package ontime

import (
	"math"
	"strconv"

	"seamrail/motion/base/fault"
)

// countable returns after how many rounds the controller takes two steps of an axis
// for one, and which axis that is; 0 where it never does. An axis that gains by each
// round counts up.
func (m *machine) countable() (rounds int64, axis int) {
	for i, a := range m.axes {
		gain := math.Abs(m.advance[i].Float())
		most := m.c.Countable(a.StepsPerUnit.Float())
		if gain == 0 || most == math.Inf(1) {
			continue
		}
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
	most, axis := s.m.countable()
	fit := "the controller begins to count anew when it is started anew"
	if !s.reaches {
		most, s.reaches = s.fewer()
	}
	if s.reaches {
		fit = "takes of " + strconv.FormatInt(most, 10) + " rounds would do; " + fit
	}
	f := at("rounds", strconv.FormatInt(s.best.Rounds, 10), "count further up than numbers of 24 bits tell steps well apart",
		fit)
	f.Axis = s.m.axes[axis].Name
	if s.reaches {
		f.Edits = []fault.Edit{{Path: "take.rounds", Text: strconv.FormatInt(most, 10)}}
	}
	return f, true
}

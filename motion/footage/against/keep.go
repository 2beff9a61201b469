package against

import (
	"fmt"
)

// leastKept is the least damping that a rig file takes, and mostUnsure the share of a frequency by
// which it may be unsure there: the bounds of motion/spec/rig.
const (
	leastKept  = 0.0005
	mostUnsure = 0.5
)

// Lines are what a rig file keeps of a swing, under the axis of that name. It fails where the
// swing is known too badly to be kept.
func (s Shake) Lines(axis string) ([]string, error) {
	switch m := s.Measured; {
	case !(m.FrequencySure <= mostUnsure*m.Spring.Frequency):
		return nil, fmt.Errorf("a swing of %.3g Hz, known to %.2g Hz: it must be known to half of it; longer rests would do", m.Spring.Frequency, m.FrequencySure)
	case m.Spring.Damping < leastKept:
		return nil, fmt.Errorf("a damping of %.2g %%; it must be %g %% or more to be kept, and longer rests would tell it", 100*m.Spring.Damping, 100*leastKept)
	}
	return []string{
		fmt.Sprintf("[axis.%s.shake]", axis),
		fmt.Sprintf("frequency = \"%.4g Hz\"", s.Spring.Frequency),
		fmt.Sprintf("damping = \"%.3g %%\"", 100*s.Spring.Damping),
		fmt.Sprintf("uncertainty = \"%.2g Hz\"", s.FrequencySure),
	}, nil
}

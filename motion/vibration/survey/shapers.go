package survey

import (
	"seamrail/motion/move"
	"seamrail/motion/vibration"
)

// offBy is by how much the frequency may be off, as a share, in what is said
// of a shaper: a lens that was changed, a carriage at the other end.
const offBy = 0.05

// Shaped is what a shaper does for the move.
type Shaped struct {
	Shaper vibration.Shaper
	Found
	Off float64 // units: Left where the frequency is five hundredths off, the worse side
	Why string  // why there is no such move; else ""
}

// Shapers tries every shaper.
func (s Subject) Shapers() []Shaped {
	m, can := s.Move.Does.(move.Shapeable)
	if s.Fixed != nil || !can {
		return nil
	}
	if why, _ := m.Shakeless(); why != "" {
		return nil
	}
	var out []Shaped
	for _, k := range vibration.Shapers() {
		other := s
		other.Move.Shaped = k
		found := Shaped{Shaper: k}
		f, _, err := other.Own()
		if err != nil {
			found.Why = err.Error()
		} else {
			found.Found, found.Off = f, other.off()
		}
		out = append(out, found)
	}
	return out
}

// off is what the move, shaped for the spring as it is said to be, leaves of
// springs that are off either way.
func (s Subject) off() float64 {
	t, err := s.Move.ShapedTrack(s.Loop.Real(), s.Spring)
	if err != nil {
		return 0
	}
	worst := 0.0
	for _, share := range []float64{1 - offBy, 1 + offBy} {
		other := s
		other.Spring.Frequency *= share
		if f, _, err := other.Look(t); err == nil {
			worst = max(worst, f.Left)
		}
	}
	return worst
}

package ontime

import (
	"seamrail/motion/controller/firmware"
	"seamrail/motion/controller/program"
	"seamrail/motion/controller/segment"
	"seamrail/motion/plan/trajectory"
)

// Stretch is a time in which the first axis of a take makes its steps at one rate.
type Stretch struct {
	From, To float64 // s since the controller was told
	Way      float64 // mm or degrees
}

// Played is what the model of the rig's controller makes of one round of a take, whatever
// that was meant to be: stretches of motion, one after the other.
func Played(t *trajectory.Trajectory, k segment.Take) ([]Stretch, error) {
	m := newMachine(t)
	p := program.For(t, m.c, m.axes, k)
	p.FinishAfter(1)
	var at firmware.Counts
	for i := range m.axes {
		at[i] = m.board.StepsAt(i, k.Rest[i]) // it stands where the take begins
	}
	var out []Stretch
	per := m.axes[0].StepsPerUnit.Float()
	next := func() (string, bool) {
		l, ok := p.Next()
		return l.Text, ok
	}
	_, err := m.board.Play(next, m.letters, at, m.link, firmware.Watch{Slice: func(s *firmware.Slice, start firmware.Instant) {
		way := s.CountsAfter(len(m.axes), s.Pulses)[0] - s.CountsAfter(len(m.axes), 0)[0]
		out = append(out, Stretch{start.Seconds(), (start + s.Lasts()).Seconds(), float64(way) / per})
	}})
	if err == nil {
		err = p.Err()
	}
	return out, err
}

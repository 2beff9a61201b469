package reach

import (
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
	"seamrail/motion/turntable/spin"
)

// AtLoop is the shot in another loop, with its clock and the speeds of its stands: what
// was stated on screen keeps its time there.
func AtLoop(s shot.Shot, l spin.Loop) shot.Shot {
	times := l.Clock.Retime.Quo(s.Clock.Retime)
	s.Clock, s.Loop = l.Clock, l.Loop
	axes := make([]shot.AxisMove, len(s.Axes))
	for i, m := range s.Axes {
		if timed, ok := m.Does.(move.Timed); ok {
			m.Does = timed.Retimed(times)
		}
		axes[i] = m
	}
	s.Axes = axes
	spins := make([]shot.Spin, len(s.Spins))
	for i, one := range s.Spins {
		spins[i] = one
		if i < len(l.Seams) {
			spins[i].Speed, spins[i].Symmetry = l.Seams[i].Speed.Name, l.Seams[i].Product.Symmetry
		}
	}
	s.Spins = spins
	return s
}

// Closes tells whether a shot has a plan that keeps the limits and at whose seam every
// stand is within its bound, and known to be where the shot states one.
func Closes(s shot.Shot, r rig.Rig) bool {
	p, err := plan.Build(s, r)
	if err != nil || len(p.Breaches()) > 0 {
		return false
	}
	for _, one := range p.Stands {
		if !one.Seam.Closes() || one.Refuses() {
			return false
		}
	}
	return true
}

package lensview

import (
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/track"
)

// turning is a trajectory with its display stands as axes that nobody steps.
// Frame 0 finds them where the plan says, and they never stop.
type turning struct {
	*trajectory.Trajectory
	starts, rates []float64 // of each stand: degrees in frame 0, and a real second
}

func newTurning(t *trajectory.Trajectory) turning {
	m := turning{Trajectory: t}
	for n := range t.StandCount() {
		m.starts = append(m.starts, t.StandAngle(n, 0).Float())
		m.rates = append(m.rates, t.Stand(n).Rate.Float())
	}
	return m
}

// AxisCount counts the axes and the stands.
func (m turning) AxisCount() int { return m.Trajectory.AxisCount() + m.StandCount() }

// stand tells which stand an axis number stands for.
func (m turning) stand(i int) (int, bool) {
	n := i - m.Trajectory.AxisCount()
	return n, n >= 0
}

// Axis returns an axis; a stand has no steps.
func (m turning) Axis(i int) rig.Axis {
	if n, ok := m.stand(i); ok {
		return rig.Axis{Name: m.Stand(n).Name, Kind: rig.Rotary, Endless: true}
	}
	return m.Trajectory.Axis(i)
}

// turned is where a stand is, in degrees.
func (m turning) turned(n int, sec float64) track.State {
	return track.State{Pos: m.starts[n] + m.rates[n]*sec, Vel: m.rates[n]}
}

// State returns an axis within the endless loop. A stand does not come back with
// it, but where it is after many rounds nobody asks: rounds differ by its seam.
func (m turning) State(i int, sec float64) track.State {
	if n, ok := m.stand(i); ok {
		return m.turned(n, sec)
	}
	return m.Trajectory.State(i, sec)
}

// Before returns an axis just before sec.
func (m turning) Before(i int, sec float64) track.State {
	if n, ok := m.stand(i); ok {
		return m.turned(n, sec)
	}
	return m.Trajectory.Before(i, sec)
}

// TakeState returns an axis within a whole take.
func (m turning) TakeState(i int, rounds int64, sec float64) track.State {
	if n, ok := m.stand(i); ok {
		return m.turned(n, sec)
	}
	return m.Trajectory.TakeState(i, rounds, sec)
}

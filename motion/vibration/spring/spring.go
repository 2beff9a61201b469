// Package spring is what an axis and its load swing like: a damped spring, its free
// swing in closed form, and the state in which a round of pushes leaves it for ever.
package spring

import (
	"errors"
	"fmt"
	"math"
)

// Bounds of a spring. A tabletop rig that swings slower than once in ten
// seconds is falling over, and one that rings above a kilohertz is heard, not
// seen. Beyond nine tenths of critical nothing swings.
const (
	MinFrequency = 0.1  // Hz
	MaxFrequency = 1000 // Hz
	MaxDamping   = 0.9
)

// Spring is what an axis and its load swing like.
type Spring struct {
	Frequency float64 // Hz, natural: undamped
	Damping   float64 // share of critical, 0 to MaxDamping
}

// Check tells what is wrong with a spring, NaN included.
func (s Spring) Check() error {
	switch {
	case !(s.Frequency >= MinFrequency && s.Frequency <= MaxFrequency):
		return fmt.Errorf("frequency %g Hz must be from %g to %d Hz", s.Frequency, MinFrequency, MaxFrequency)
	case !(s.Damping >= 0 && s.Damping <= MaxDamping):
		return fmt.Errorf("damping %g must be from 0 to %g of critical", s.Damping, MaxDamping)
	}
	return nil
}

// Known tells whether there is a spring at all: the zero value is none.
func (s Spring) Known() bool { return s.Frequency > 0 }

func (s Spring) Omega() float64 { return 2 * math.Pi * s.Frequency }

// Damped is the angular frequency it swings at, rad/s.
func (s Spring) Damped() float64 { return s.Omega() * math.Sqrt(1-s.Damping*s.Damping) }

// Period returns the seconds of one swing, damping counted.
func (s Spring) Period() float64 { return 2 * math.Pi / s.Damped() }

// Fades returns the seconds in which a swing falls from one size to another;
// +Inf where nothing damps it, 0 where it is small enough already.
func (s Spring) Fades(from, to float64) float64 {
	if from <= to {
		return 0
	}
	return math.Log(from/to) / (s.Damping * s.Omega())
}

// State is where the load is beside the carriage, in units, and its speed
// there, in units/s.
type State struct{ Pos, Vel float64 }

func (a State) Plus(b State) State { return State{a.Pos + b.Pos, a.Vel + b.Vel} }

// Swing returns the amplitude of the free swing that begins in a state: what
// its envelope is just then.
func (s Spring) Swing(a State) float64 {
	return math.Hypot(a.Pos, (a.Vel+s.Damping*s.Omega()*a.Pos)/s.Damped())
}

// Matrix takes a state of free swing from one time to another.
type Matrix struct{ pp, pv, vp, vv float64 }

func (m Matrix) Times(a State) State {
	return State{m.pp*a.Pos + m.pv*a.Vel, m.vp*a.Pos + m.vv*a.Vel}
}

// Free is the matrix of sec seconds: the exponential of the system, in closed
// form.
func (s Spring) Free(sec float64) Matrix {
	w, wd := s.Omega(), s.Damped()
	e := math.Exp(-s.Damping * w * sec)
	sin, cos := math.Sincos(wd * sec)
	lag := s.Damping * w / wd * sin
	return Matrix{e * (cos + lag), e * sin / wd, -e * w * w / wd * sin, e * (cos - lag)}
}

// ErrGrows says that a loop has no steady state: nothing damps the swing, and
// every round adds to it.
var ErrGrows = errors.New("the loop is in step with the rig's own swing and nothing damps it: it grows from round to round; another loop length or some damping would do")

// minReturn is how near to 1 a round may bring a free swing back to itself,
// as a share. A billionth leaves seven digits of the steady state.
const minReturn = 1e-9

// Steady returns the state at frame 0 that comes back to itself after a round
// of sec seconds which takes rest to after: x = M x + after.
func (s Spring) Steady(sec float64, after State) (State, error) {
	m := s.Free(sec)
	a, b, c, d := 1-m.pp, -m.pv, -m.vp, 1-m.vv
	det := a*d - b*c
	if !(det > minReturn*minReturn) {
		return State{}, ErrGrows
	}
	return State{(d*after.Pos - b*after.Vel) / det, (a*after.Vel - c*after.Pos) / det}, nil
}

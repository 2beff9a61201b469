package stepwise

import (
	"math"
	"slices"
	"sync"

	"seamrail/motion/law"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/track"
	"seamrail/motion/vibration"
	"seamrail/motion/vibration/ringdown"
	"seamrail/motion/vibration/spring"
)

// axis is one axis of a plan that goes from frame to frame.
type axis struct {
	rig    rig.Axis
	track  *track.Track
	still  float64   // mm or degrees of swing that may be left
	moves  bool      // at all
	plays  bool      // its controller plays steps, and plans nothing
	side   int64     // +1 or -1: where it always comes from; 0 = as it comes
	beyond int64     // steps that it goes beyond a place to come back to it
	swings *sync.Map // what parts of legs leave, as found so far
}

const (
	// usualStill is the swing that may be left where neither the shot nor the picture
	// says how much, mm or degrees: a pixel of a full frame of 6000 at 1:1 is 0.006 mm.
	usualStill = 0.01
	// unseen is the share of a pixel that a swing may have: half is not seen.
	unseen = 0.5
	// blindOver is how far an axis goes back, mm or degrees, to come to a frame from its
	// side again after a break, where the rig states no play: more than belts and worms have.
	blindOver = 1
)

func newAxis(p *plan.Plan, i int, perMM float64) axis {
	a := axis{rig: p.Axes[i].Rig, track: p.Axes[i].Track, still: usualStill, swings: &sync.Map{}}
	if a.plays = p.Rig.Controller.Kind.PlaysSteps(); !a.plays {
		a.rig.MaxJerk = 0 // what plans for itself knows no bound of jerk
	}
	switch by := p.ByFrame; {
	case by.Still > 0:
		a.still = by.Still
	case perMM > 0 && a.rig.Kind == rig.Linear:
		a.still = unseen / perMM
	}
	return a
}

// goes finds out whether the axis moves at all and, as the plan has it, from which side it
// comes to the frames.
func (a *axis) goes(s *Schedule, i int) {
	for n := int64(1); n <= s.plan.Loop.Captured && !a.moves; n++ {
		a.moves = s.Steps(i, n) != s.Steps(i, n-1)
	}
	t := s.plan.TakeUp(i)
	a.side, a.beyond = t.Side, t.Beyond
}

func sign(d int64) int {
	switch {
	case d > 0:
		return 1
	case d < 0:
		return -1
	}
	return 0
}

// steps is a distance in steps, part steps up.
func (a *axis) steps(units float64) int64 { return plan.StepsOf(a.rig, units) }

// hops are those from one place to another.
func (a *axis) hops(i int, from, to int64) []Move {
	switch {
	case from == to:
		return nil
	case a.side != 0 && int64(sign(to-from)) != a.side:
		over := to - a.side*a.beyond
		return []Move{{i, from, over}, {i, over, to}}
	}
	return []Move{{i, from, to}}
}

// units is a way in steps as mm or degrees.
func (a *axis) units(steps int64) float64 { return float64(steps) / a.rig.StepsPerUnit.Float() }

// own is the axis as its controller has it: one that plans for itself knows the acceleration
// that it is set to, and that alone.
func (a *axis) own() rig.Axis {
	own := a.rig
	if set := own.Settings.Acceleration; set > 0 && !a.plays {
		own.MaxAcc = set
	}
	return own
}

// Longest returns a move of an axis of a plan between frames that reaches its gentle speed,
// as its controller makes it: none asks more of its motor.
func Longest(p *plan.Plan, i int) law.Profile {
	a := newAxis(p, i, 0)
	v := GentleSpeed(a.rig)
	own := a.own()
	return Gentle(own, a.units(a.steps(2*v*v/Gentle(own, a.units(1)).A+v)))
}

// before is where the axis goes first to come to a frame as it does in the take, in steps.
func (a *axis) before(s *Schedule, i int, n int64) int64 {
	at, way := s.Steps(i, n), a.side
	for k := n; way == 0 && k > 0 && k > n-s.plan.Loop.Captured; k-- {
		way = int64(sign(s.Steps(i, k) - s.Steps(i, k-1)))
	}
	for k := n; way == 0 && k < n+s.plan.Loop.Captured; k++ { // as at the first frame: the way that it will go on
		way = int64(sign(s.Steps(i, k+1) - s.Steps(i, k)))
	}
	over := a.beyond
	if over == 0 {
		over = a.steps(blindOver)
		if play := a.rig.Backlash; play != nil {
			over = a.steps(plan.PlayOver * *play)
		}
	}
	to := at - way*over
	if pos := s.Unit(i, to); !a.rig.Contains(pos) {
		return at // there is no room to come from there
	}
	return to
}

// swing is the swing that a move over so many steps leaves of a load at rest, in units, as
// its part of a leg: the most that it may be as the frequency is known. A move that lasts as
// long as a swing cancels it, and a little off it does not.
func (a *axis) swing(steps int64, leg law.Profile) float64 {
	type part struct {
		steps    int64
		sec, acc float64
	}
	key := part{max(steps, -steps), leg.T, leg.A}
	if left, known := a.swings.Load(key); known {
		return left.(float64)
	}
	way, most := a.units(key.steps), 0.0
	acc := func(sec float64) float64 { _, _, acc, _ := leg.At(sec); return way * acc }
	for _, spring := range maybe(a.rig.Shake) {
		most = math.Max(most, spring.Swing(vibration.Carried(spring, acc, breaks(leg))))
	}
	a.swings.Store(key, most)
	return most
}

// maybe are springs within the bound of a measured frequency, which is two of its standard
// uncertainties (JCGM 100, 6.2.3), from end to end.
func maybe(m ringdown.Measured) []spring.Spring {
	const bound, each = 2, 2 // looks on each side
	if m.FrequencySure == 0 {
		return []spring.Spring{m.Spring}
	}
	var out []spring.Spring
	for k := -each; k <= each; k++ {
		s := m.Spring
		s.Frequency = math.Max(s.Frequency+bound*m.FrequencySure*float64(k)/each, s.Frequency/2)
		out = append(out, s)
	}
	return out
}

// breaks are the times at which the acceleration of a move may jump or bend.
func breaks(p law.Profile) []float64 {
	down := p.Ta + p.Tv
	return slices.Compact([]float64{0, p.Tj, p.Ta - p.Tj, p.Ta, down, down + p.Tj, down + p.Ta - p.Tj, p.T})
}

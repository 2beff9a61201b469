package picture

import (
	"fmt"
	"math"

	"seamrail/motion/scene"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/unit"
	"seamrail/motion/move"
	"seamrail/motion/spec/rig"
	"seamrail/motion/track"
)

// longerTries is how many loops are tried for one that is long enough: what a shot
// says in frames, such as a dwell, does not stretch with it.
const longerTries = 3

// tryLonger adds a loop some times as long.
func (e *eye) tryLonger(v *Verdict, times float64) {
	w, ok := e.motion.(Rewriter)
	if times > maxLonger {
		return
	}
	if !ok || !w.Loops() {
		v.advise("a loop about %s times as long, planned anew", short(times))
		return
	}
	per := e.motion.Clock().PerScreen()
	own := exact.Int(e.motion.Captured()).Quo(per).Float()
	grain := per.Den().Int64()
	for k := range longerTries {
		// Each try is a twentieth longer.
		n := int64(math.Ceil(own*times*(1+0.05*float64(k))/float64(grain))) * grain
		m := v.try(ofMotion, nil, "a loop of %d frames", n).as("clock.loop", move.FramesText(n))
		m.instead = k > 0
		m.motion = func(m *remedy) bool { _, _, ok := w.With(m.edits...); return ok }
	}
}

// shrunk is a motion with one axis going a share of its way, about a place.
type shrunk struct {
	Motion
	axis         int
	about, share float64
}

func (m shrunk) less(i int, s track.State) track.State {
	if i == m.axis {
		s.Pos = m.about + m.share*(s.Pos-m.about)
		s.Vel, s.Acc, s.Jerk = m.share*s.Vel, m.share*s.Acc, m.share*s.Jerk
	}
	return s
}

func (m shrunk) State(i int, sec float64) track.State  { return m.less(i, m.Motion.State(i, sec)) }
func (m shrunk) Before(i int, sec float64) track.State { return m.less(i, m.Motion.Before(i, sec)) }
func (m shrunk) TakeState(i int, rounds int64, sec float64) track.State {
	return m.less(i, m.Motion.TakeState(i, rounds, sec))
}

// tryLess adds less travel of an axis, from where it is in frame 0. All of a law
// scales, so that such a move keeps the limits that it kept.
func (e *eye) tryLess(v *Verdict, axis int, share float64) {
	lo, hi := e.reach(axis)
	if !(share >= minTravel && share < 1) || hi-lo < settled {
		return
	}
	a := e.motion.Axis(axis)
	about := e.motion.State(axis, 0).Pos
	dim := unit.Length
	if a.Kind == rig.Rotary {
		dim = unit.Angle
	}
	place := func(pos float64) string {
		const grain = 10 // places are set to a tenth
		return unit.Format(math.Round(pos*grain)/grain, dim)
	}
	words := func(lo, hi float64) string {
		return fmt.Sprintf("less travel of %s, from %s to %s", a.Name, place(lo), place(hi))
	}
	if w, ok := e.motion.(Rewriter); ok {
		if all := w.Less(axis, share); len(all) > 0 {
			e.tryLessOf(v, axis, words, all)
			return
		}
	}
	at := func(pos float64) float64 { return about + share*(pos-about) }
	v.remedies = append(v.remedies, remedy{on: ofMotion, motion: func(m *remedy) bool {
		m.moves, m.words = shrunk{e.motion, axis, about, share}, words(at(lo), at(hi))
		return true
	}})
}

// tryLessOf adds less travel of an axis as its file can have it.
func (e *eye) tryLessOf(v *Verdict, axis int, words func(lo, hi float64) string, all [][]fault.Edit) {
	for k, edits := range all {
		v.remedies = append(v.remedies, remedy{on: ofMotion, instead: k > 0, edits: edits, motion: func(m *remedy) bool {
			less, _, ok := e.motion.(Rewriter).With(edits...)
			if ok {
				m.words = words((&eye{motion: less}).reach(axis))
			}
			return ok
		}})
	}
}

// reach is how far an axis goes in the loop.
func (e *eye) reach(axis int) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	until := e.shownUntil().Float()
	n := int(min(e.motion.Captured(), trialRows)) * looksPerFrame
	for k := range n + 1 {
		pos := e.motion.State(axis, until*float64(k)/float64(n)).Pos
		lo, hi = math.Min(lo, pos), math.Max(hi, pos)
	}
	return lo, hi
}

// geared is a motion with one axis taking finer steps.
type geared struct {
	Motion
	axis  int
	times int64
}

func (m geared) Axis(i int) rig.Axis {
	a := m.Motion.Axis(i)
	if i == m.axis {
		a.StepsPerUnit = a.StepsPerUnit.Mul(exact.Int(m.times))
	}
	return a
}

// tryFiner adds finer steps of an axis.
func (e *eye) tryFiner(v *Verdict, axis int, times float64) {
	n := int64(math.Ceil(times - 1e-9))
	v.remedies = append(v.remedies, remedy{on: ofMotion, moves: geared{e.motion, axis, n},
		words: fmt.Sprintf("microsteps %d times as fine, or as much more gearing", n)})
}

// How much a remedy may change and still leave the shot that was meant: a loop as many
// times as long, travel of as small a share, a picture as many times smaller.
const (
	maxLonger  = 8
	minTravel  = 0.5
	maxSmaller = 2
)

// tryFarther adds a camera farther back and focused there, so that all comes out some
// times smaller.
func (e *eye) tryFarther(v *Verdict, times float64) {
	if !e.focusable() || !e.magnified.Given || !(times > 1 && times <= maxSmaller) {
		return
	}
	u := e.where.Value + e.focal.Value*(times-1)/e.magnified.Value
	u = math.Ceil(u)
	back := u - e.where.Value
	m := v.try(ofFocus|ofPlace, func(s *scene.Scene) {
		refocused(s, u)
		s.Stand.Distance = scene.Is(s.Stand.Distance.Value + back)
	}, "the camera %s farther back and focused at %s", mm(back), unit.Format(u, unit.Length))
	e.backed(m, back)
	e.focused(m, u)
}

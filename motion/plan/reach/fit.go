package reach

import (
	"fmt"
	"slices"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/root"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
)

// Fit is one change to a shot that takes it back inside the rig's limits.
type Fit struct {
	Axis  string // empty where it concerns the whole shot
	Kind  string // "loop", "slower", "travel", "place", "law", "rounds" or "both"
	Text  string // "a loop of 211 frames (8.801 s)"
	Shot  shot.Shot
	Edits []fault.Edit // that make it of the shot's file
	// In is the same in another loop: its text, and its edits. It is nil where no length of
	// the loop is chosen.
	In func(clock.Loop) (string, []fault.Edit)
}

// Cure is the fit as any other.
func (f Fit) Cure() fault.Cure { return fault.Cure{Words: f.Text, Edits: f.Edits} }

// longestLoop bounds the search for a loop that fits, as a multiple of the one
// asked for.
const longestLoop = 1 << 12

// Fits returns what would bring the shot inside the rig's limits, each change
// by itself: the shortest loop at this travel, fewer rounds, then for each axis
// the longest travel in this loop and the laws that fit. Nothing is returned for a shot
// that breaks no limit, and nothing that was not built and verified.
func Fits(s shot.Shot, r rig.Rig) []Fit {
	p, err := plan.Build(s, r)
	if err != nil || len(p.Breaches()) == 0 {
		return nil
	}
	if p.Set != nil {
		return byHandFits(s, r, p)
	}
	var out []Fit
	for _, whole := range []func(shot.Shot, rig.Rig) (Fit, bool){loopFit, slowerFit, roundsFit} {
		if f, ok := whole(s, r); ok {
			out = append(out, f)
		}
	}
	broken := map[string][]plan.Breach{}
	for _, b := range p.Breaches() {
		broken[b.Axis] = append(broken[b.Axis], b)
	}
	for i, m := range s.Axes {
		if b := broken[m.Name]; len(b) > 0 {
			out = append(out, axisFits(s, r, i, b)...)
		}
	}
	if len(out) == 0 {
		out = mixedFit(s, r, broken)
	}
	return unlessFar(s, out)
}

// farLoop is from how many times as long on a loop is offered only where nothing else is: a
// minute for each second that was asked for is another shot.
const farLoop = 60

func unlessFar(s shot.Shot, fits []Fit) []Fit {
	far := func(f Fit) bool { return f.Shot.Loop.Screen > s.Loop.Screen*farLoop }
	if slices.ContainsFunc(fits, func(f Fit) bool { return !far(f) }) {
		return slices.DeleteFunc(fits, far)
	}
	return fits
}

// axisFits is what would do for one axis.
func axisFits(s shot.Shot, r rig.Rig, i int, broken []plan.Breach) []Fit {
	out := placeFit(s, r, i, broken)
	if m, ok := s.Axes[i].Does.(move.Shrinker); ok {
		out = append(out, travelFit(s, r, i, m, broken)...)
	}
	if m, ok := s.Axes[i].Does.(move.Relawed); ok {
		out = append(out, lawFits(s, r, i, m)...)
	}
	return out
}

// tried is the fit, if what it makes of the shot was planned and verified: nothing is
// offered that does not go through here.
func tried(r rig.Rig, f Fit) []Fit {
	if !verified(f.Shot, r, f.Axis) {
		return nil
	}
	return []Fit{f}
}

func loopFit(s shot.Shot, r rig.Rig) (Fit, bool) {
	loop, ok := ShortestLoop(s, r)
	if !ok {
		return Fit{}, false
	}
	in := func(l clock.Loop) (string, []fault.Edit) {
		return LoopWords(l) + " at this travel", []fault.Edit{loopEdit(l)}
	}
	return first(tried(r, Fit{Kind: "loop", Shot: withLoop(s, loop), In: in}.in(loop)))
}

// LoopWords are a loop as what would do.
func LoopWords(l clock.Loop) string {
	return fmt.Sprintf("a loop of %d frames (%s s on screen)", l.Screen, l.OnScreen().Decimal(3))
}

// in is a fit with the text and the edits of a loop.
func (f Fit) in(l clock.Loop) Fit {
	f.Text, f.Edits = f.In(l)
	return f
}

func loopEdit(l clock.Loop) fault.Edit {
	return fault.Edit{Path: "clock.loop", Text: move.FramesText(l.Screen)}
}

func first(fits []Fit) (Fit, bool) {
	if len(fits) == 0 {
		return Fit{}, false
	}
	return fits[0], true
}

// roundsFit looks for fewer rounds: an axis between stops that gains in each
// round runs out of travel in a long take and not in a short one.
func roundsFit(s shot.Shot, r rig.Rig) (Fit, bool) {
	changed := s
	fits := func(n int) bool {
		changed.Rounds = n
		return n > 0 && inside(changed, r)
	}
	if !fits(min(1, s.Rounds-1)) {
		return Fit{}, false
	}
	lo := root.Whole(s.Rounds, 1, fits)
	changed.Rounds = lo
	return first(tried(r, Fit{Kind: "rounds", Shot: changed, Text: fmt.Sprintf("rounds = %d in this loop", lo),
		Edits: []fault.Edit{{Path: "take.rounds", Text: fmt.Sprint(lo)}}}))
}

// ShortestLoop returns the shortest loop, in whole captured and timeline
// frames, in which the shot breaks no limit of the rig, and whether there is
// one within four thousand times the loop asked for. A longer loop only slows
// every axis down, so the search is by halving.
func ShortestLoop(s shot.Shot, r rig.Rig) (clock.Loop, bool) {
	return shortest(s, func(loop clock.Loop) bool { return inside(withLoop(s, loop), r) })
}

// shortest returns the shortest loop in which something holds that holds in every
// longer one.
func shortest(s shot.Shot, holds func(clock.Loop) bool) (clock.Loop, bool) {
	grain := s.Clock.PerScreen().Den().Int64()
	fits := func(n int64) bool {
		loop, err := s.Clock.LoopFrames(n * grain)
		return err == nil && holds(loop)
	}
	asked, most := max(1, s.Loop.Screen/grain), int64(longestLoop)
	if s.ByFrame != nil {
		most = farLoop // what rests at each frame is looked at frame by frame, and more frames seldom help it
	}
	lo, hi := int64(0), asked
	for !fits(hi) {
		if hi > asked*most {
			return clock.Loop{}, false
		}
		lo, hi = hi, hi*2
	}
	loop, err := s.Clock.LoopFrames(root.Whole(lo, hi, fits) * grain)
	return loop, err == nil
}

func withLoop(s shot.Shot, l clock.Loop) shot.Shot {
	s.Loop = l
	return s
}

func inside(s shot.Shot, r rig.Rig) bool {
	p, err := plan.Build(s, r)
	return err == nil && len(p.Breaches()) == 0
}

// verified builds the shot and asks the verifier; with an axis named, only
// about that axis, as the others may have troubles of their own.
func verified(s shot.Shot, r rig.Rig, axis string) bool {
	p, err := plan.Build(s, r)
	if err != nil {
		return false
	}
	for _, b := range p.Breaches() {
		if axis == "" || b.Axis == axis {
			return false
		}
	}
	for _, f := range verify.Check(trajectory.New(p)).Failed() {
		if axis == "" || f.Axis == axis || f.Axis == "" {
			return false
		}
	}
	return true
}

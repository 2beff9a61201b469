package reach

import (
	"fmt"

	"seamrail/motion/clock"
	"seamrail/motion/plan"
	"seamrail/motion/rig"
	"seamrail/motion/shot"
	"seamrail/motion/trajectory"
	"seamrail/motion/verify"
)

// Fit is one change to a shot that takes it back inside the rig's limits.
type Fit struct {
	Axis string // empty where it concerns the whole shot
	Kind string // "loop", "travel", "law" or "rounds"
	Text string // "a loop of 211 frames (8.801 s)"
	Shot shot.Shot
}

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
	var out []Fit
	if f, ok := loopFit(s, r); ok {
		out = append(out, f)
	}
	if f, ok := roundsFit(s, r); ok {
		out = append(out, f)
	}
	broken := map[string][]plan.Breach{}
	for _, b := range p.Breaches() {
		broken[b.Axis] = append(broken[b.Axis], b)
	}
	for i, m := range s.Axes {
		b := broken[m.Name]
		switch {
		case len(b) == 0:
		case m.Move == shot.ThereAndBack:
			out = append(out, travelFit(s, r, i, b)...)
			out = append(out, lawFits(s, r, i)...)
		case m.Move == shot.Turn:
			out = append(out, turnFit(s, r, i, b)...)
			out = append(out, lawFits(s, r, i)...)
		}
	}
	return out
}

func loopFit(s shot.Shot, r rig.Rig) (Fit, bool) {
	loop, ok := ShortestLoop(s, r)
	if !ok || !verified(withLoop(s, loop), r, "") {
		return Fit{}, false
	}
	return Fit{Kind: "loop", Shot: withLoop(s, loop), Text: fmt.Sprintf("a loop of %d frames (%s s on screen) at this travel",
		loop.Screen, loop.OnScreen().Decimal(3))}, true
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
	lo, hi := 1, s.Rounds
	for hi-lo > 1 {
		if mid := lo + (hi-lo)/2; fits(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	changed.Rounds = lo
	return Fit{Kind: "rounds", Shot: changed, Text: fmt.Sprintf("rounds = %d in this loop", lo)},
		verified(changed, r, "")
}

// ShortestLoop returns the shortest loop, in whole captured and timeline
// frames, in which the shot breaks no limit of the rig, and whether there is
// one within four thousand times the loop asked for. A longer loop only slows
// every axis down, so the search is by halving.
func ShortestLoop(s shot.Shot, r rig.Rig) (clock.Loop, bool) {
	grain := s.Clock.PerScreen().Den().Int64()
	fits := func(n int64) bool {
		loop, err := s.Clock.LoopFrames(n * grain)
		return err == nil && inside(withLoop(s, loop), r)
	}
	asked := max(1, s.Loop.Screen/grain)
	lo, hi := int64(0), asked
	for !fits(hi) {
		if hi > asked*longestLoop {
			return clock.Loop{}, false
		}
		lo, hi = hi, hi*2
	}
	for hi-lo > 1 {
		if mid := lo + (hi-lo)/2; fits(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	loop, err := s.Clock.LoopFrames(hi * grain)
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

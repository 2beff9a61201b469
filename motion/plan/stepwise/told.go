package stepwise

import (
	"fmt"
	"math"
	"slices"

	"seamrail/motion/base/fault"
	"seamrail/motion/base/root"
	"seamrail/motion/verify"
	"seamrail/motion/verify/trace"
)

// Told is the schedule as it was finished, for whoever must know no planner: the frames of
// a round and the first of the next, whether the take goes on to that or not. What moves
// sets out as soon as the camera is ready.
func (s *Schedule) Told() []trace.Exposed {
	var out []trace.Exposed
	free := 0.0 // when the camera is ready
	for n := range s.plan.Loop.Captured + 1 {
		f := s.Frame(n)
		x := trace.Exposed{Opens: f.Opens.Float()}
		x.Closes = x.Opens + f.Need.Hand + f.Need.Exposure + f.Need.Release
		for _, l := range f.Legs {
			for _, m := range l.Moves {
				x.Hops = append(x.Hops, trace.Hop{Axis: m.Axis, From: m.From, To: m.To, Begins: free, Ends: free + l.Seconds})
			}
			free += l.Seconds
		}
		for i := range s.axes {
			x.Steps = append(x.Steps, s.Steps(i, n))
		}
		out = append(out, x)
		free = x.Closes + f.Need.Card
	}
	return out
}

// Findings are what is found of the schedule: by the verifier, from what is told of it, and
// whether there is time enough from frame to frame and the controller can be told its places.
func (s *Schedule) Findings(m verify.Motion) []verify.Finding {
	out := append(verify.ByFrame(m, s.Told()), s.enough())
	for i := range s.axes {
		out = append(out, s.board(i))
	}
	return out
}

// Checks that have cures.
const (
	timeCheck  = "time a frame"
	placeCheck = "places told"
)

// Cures are what would do for a finding of the schedule that does not hold: a longer time from
// frame to frame, or fewer rounds.
func (s *Schedule) Cures(f verify.Finding) fault.Cures {
	switch {
	case f.OK:
	case f.Check == timeCheck:
		text := s.Needs.Whole().Decimal(1) + " s"
		return fault.Cures{{Words: fmt.Sprintf("every = %q", text), Edits: []fault.Edit{{Path: "frame-by-frame.every", Text: text}}}}
	case f.Check == placeCheck:
		return s.fewer(slices.IndexFunc(s.axes, func(a axis) bool { return a.rig.Name == f.Axis }))
	}
	return nil
}

// fewer are the most rounds in which the controller can tell the steps of an axis apart.
func (s *Schedule) fewer(i int) fault.Cures {
	most := s.plan.Rig.Controller.Countable(s.axes[i].rig.StepsPerUnit.Float())
	told := func(rounds int) bool { return rounds > 0 && s.far(i, rounds) <= most }
	if s.coarse(i) || !told(1) {
		return nil
	}
	n := fmt.Sprint(root.Whole(s.plan.Rounds, 1, told))
	return fault.Cures{{Words: "rounds = " + n, Edits: []fault.Edit{{Path: "take.rounds", Text: n}}}}
}

// coarse tells whether two steps of an axis are one word for the controller.
func (s *Schedule) coarse(i int) bool {
	grain := 1.0
	for range s.plan.Rig.Controller.Decimals {
		grain /= 10
	}
	return grain*s.axes[i].rig.StepsPerUnit.Float() >= 1
}

// far is how far from its zero an axis comes in so many rounds.
func (s *Schedule) far(i, rounds int) float64 {
	far := 0.0
	for _, n := range []int64{0, int64(rounds)*s.plan.Loop.Captured - 1} {
		far = math.Max(far, math.Abs(s.Place(i, n)))
	}
	return far
}

// enough tells whether the time from frame to frame is enough for all of them.
func (s *Schedule) enough() verify.Finding {
	every, n := s.Every().Float(), s.Needs
	f := verify.Finding{Check: timeCheck, OK: n.Seconds() <= every+everySlack}
	f.Text = fmt.Sprintf("a frame every %.3f s; frame %d needs most, %s", every, n.Frame, n)
	if !f.OK {
		f.Text += fmt.Sprintf("; every = \"%s s\" would do", n.Whole().Decimal(1))
	}
	return f
}

// everySlack is rounding: the times of a frame are summed.
const everySlack = 1e-9

// String is the need in words.
func (n Need) String() string {
	text := fmt.Sprintf("%.3f s: moves %.3f, settling %.3f, ", n.Seconds(), n.Moves, n.Settle)
	if n.Hand > 0 {
		text += fmt.Sprintf("hand %.3f, ", n.Hand)
	}
	text += fmt.Sprintf("exposure %.3f, card %.3f", n.Exposure, n.Card)
	if n.Release > 0 {
		text += fmt.Sprintf(", the release %.3f more", n.Release)
	}
	if n.Gaps > 1 {
		text += fmt.Sprintf(", over %d frames with the way back", n.Gaps)
	}
	return text
}

// board tells whether an axis' controller can be told its places to the step.
func (s *Schedule) board(i int) verify.Finding {
	a, c := s.axes[i].rig, s.plan.Rig.Controller
	f := verify.Finding{Axis: a.Name, Check: placeCheck, OK: true, Text: "each is a step of its own for the controller"}
	if c.Kind.PlaysSteps() {
		return f
	}
	perUnit, far := a.StepsPerUnit.Float(), s.far(i, s.plan.Rounds)
	switch {
	case s.coarse(i):
		f.OK, f.Text = false, fmt.Sprintf("its words have %d decimals, and a step is %.6f %s: two steps would be one word", c.Decimals, 1/perUnit, a.Unit())
	case far > c.Countable(perUnit):
		f.OK, f.Text = false, fmt.Sprintf("it comes to %.0f %s, and beyond %.0f the controller cannot tell its steps apart; take fewer rounds", far, a.Unit(), c.Countable(perUnit))
	}
	return f
}

// Abrupt returns the acceleration that the controller gives an axis, where that is more
// than the axis' own limit, units/s2; 0 where it is not. A controller that plans for itself
// makes a move between frames in one line, with its own ramps.
func (s *Schedule) Abrupt(axis int) float64 {
	a := &s.axes[axis]
	if set := a.rig.Settings.Acceleration; a.moves && !a.plays && set > a.rig.MaxAcc {
		return set
	}
	return 0
}

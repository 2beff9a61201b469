package stepwise

import (
	"fmt"

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

// enough tells whether the time from frame to frame is enough for all of them.
func (s *Schedule) enough() verify.Finding {
	every, n := s.Every().Float(), s.Needs
	f := verify.Finding{Check: "time a frame", OK: n.Seconds() <= every+everySlack}
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
	f := verify.Finding{Axis: a.Name, Check: "places told", OK: true, Text: "each is a step of its own for the controller"}
	if c.Kind.PlaysSteps() {
		return f
	}
	perUnit, far := a.StepsPerUnit.Float(), 0.0
	for _, n := range []int64{0, s.Frames() - 1} {
		far = max(far, s.Place(i, n), -s.Place(i, n))
	}
	grain := 1.0
	for range c.Decimals {
		grain /= 10
	}
	switch {
	case grain*perUnit >= 1:
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

package syncmark

import (
	"fmt"
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/spec/rig"
)

// starts tells whether the mark starts the recording.
func (m *Mark) starts() bool { return m.By == ByOutput && m.Output.Serves != rig.ServesLamp }

// Name is what makes the mark, in a word or two: "lamp", "twitch of rail".
func (m *Mark) Name() string {
	switch m.By {
	case ByOutput:
		return m.Output.Name
	case ByTwitch:
		return "twitch of " + m.AxisName()
	case ByClick:
		return "click track"
	}
	return "hand"
}

// What says what is done.
func (m *Mark) What() string {
	what := ""
	switch m.By {
	case ByOutput:
		word := m.Output.On
		if m.Output.Number > 0 {
			word = fmt.Sprint("output ", m.Output.Number)
		}
		what = fmt.Sprintf("%s (%s, a %s) is on for %s", m.Output.Name, word, m.Output.Serves, secs(m.Length))
	case ByTwitch:
		what = fmt.Sprintf("%s goes %.3f %s out, stays for %s and comes back", m.AxisName(), m.Distance, m.Unit(), secs(m.Length))
	case ByClick:
		what = "a sharp tone of the click track, and nothing of the rig"
	case ByHand:
		what = "a hand, at the sharp tone of the click track or the bell"
	}
	what += fmt.Sprintf(", from %s before the run-up", secs(m.Before()))
	if m.After.Sign() > 0 {
		what += fmt.Sprintf("; again %s after the run-out", secs(m.After))
	}
	return what
}

// secs is a time with as many decimals as it needs, up to a microsecond.
func secs(t exact.Rat) string {
	for n := range 6 {
		if t.Mul(power(n)).IsInt() {
			return t.Decimal(n) + " s"
		}
	}
	return t.Decimal(6) + " s"
}

func power(n int) exact.Rat {
	out := exact.Int(1)
	for range n {
		out = out.Mul(exact.Int(10))
	}
	return out
}

// First is the frame that is looked for.
func (m *Mark) First() string {
	switch {
	case m.starts():
		return "the first frame of the recording"
	case m.By == ByOutput:
		return "the first bright frame"
	case m.By == ByTwitch:
		return "the first frame in which the picture has moved"
	case m.By == ByClick:
		return "the frame in which the sharp tone begins"
	}
	return "the frame of the hand's mark"
}

// Where says at which frame the marks are, in captured frames from frame 0 of the take.
func (m *Mark) Where(rounds int64) string {
	out := "at frame " + m.Frame().Decimal(3)
	if f, ok := m.SecondFrame(rounds); ok {
		out += fmt.Sprintf(", and after %s at frame +%s", plain.Count(rounds, "round"), f.Decimal(3))
	}
	return out
}

// Follows says how frame 0 follows from the mark.
func (m *Mark) Follows() string {
	return fmt.Sprintf("frame 0 is frame %d after %s, counted from it as 0 (%.2f), give or take %.1f", m.Count(), m.First(), m.From(), m.Doubt().Frames())
}

// LeftOpen says what is not known, and what it does to the seam.
func (m *Mark) LeftOpen(rounds int64) []string {
	d := m.Doubt()
	out := []string{fmt.Sprintf("the camera's clock does not run with the rig's: %s of a frame either way; %s: %.1f frames; clocks off by up to %.0f ppm between mark and frame 0: %.2f frames",
		frames(d.Phase), m.unsureOf(), d.Means, (d.Rig+d.Camera)*1e6, d.Clocks)}
	frame, by := m.Kept(rounds)
	out = append(out, fmt.Sprintf("of %s the kept one begins at frame %d after that, give or take %.1f: cut exactly %s from there", plain.Count(rounds, "round"), frame, by, plain.Count(m.plan.Loop.Captured, "frame")))
	seam := "as long as it is cut to the count, being off by a frame moves where the loop begins and opens no seam"
	if m.plan.Back > 0 {
		seam = "being off by a frame shows a frame of the way back at one end of the cut"
	}
	opens := m.Opens()
	if math.IsNaN(opens) {
		return append(out, seam+"; clocks that differ open it by what is seen to move in that share of the loop")
	}
	return append(out, fmt.Sprintf("%s; clocks that differ by %.0f ppm open it by %.2f px (the near face goes %.2f px a frame there)", seam, (d.Rig+d.Camera)*1e6, opens, m.Shows.Seam))
}

func frames(share float64) string {
	if share == halfFrame {
		return "half"
	}
	return "up to the whole"
}

// unsureOf names what else is not known.
func (m *Mark) unsureOf() string {
	switch {
	case m.plan.Set != nil && m.By == ByHand:
		return "the hand, and the press that starts the rig"
	case m.plan.Set != nil:
		return "the fingers that start track and rig, and what the rig takes to answer"
	}
	switch m.By {
	case ByOutput:
		return "how late the " + m.Output.Serves.String() + " and the controller are"
	case ByTwitch:
		return "how soon it is seen, and the controller"
	case ByClick:
		return "track and rig are started by a finger each"
	}
	return "the hand"
}

// Minds are what to know of it before it is relied on.
func (m *Mark) Minds() []string {
	c, out := m.plan.Rig.Controller, []string(nil)
	if m.By == ByOutput {
		out = append(out, fmt.Sprintf("%s is switched at rest alone: while motors turn, %s", m.Output.Name, c.Kind.SwitchesHow()))
		if c.DoubtfulOutput(m.Output) {
			out = append(out, fmt.Sprintf("many boards do not have %s: try it before the day, with nothing on it", m.Output.On))
		}
		if m.Output.Late == 0 {
			out = append(out, "how late the "+m.Output.Serves.String()+" is has not been measured: late, in the rig file")
		}
	}
	if a := m.plan.Axes[m.Axis].Rig; m.By == ByTwitch && a.Backlash != nil {
		out = append(out, fmt.Sprintf("the play of %s, %g %s, is taken up first: the picture moves as much later, and by as much less", a.Name, *a.Backlash, a.Unit()))
	}
	if by := m.plan.Rig.Controller.IdleDelay; m.By == ByTwitch && by > 0 {
		out = append(out, "its motors lose their current at each rest: see that it stands where it stood after the twitch")
	}
	return out
}

// Unmarked says what it means that a shot has no mark; moved is ByEye, where seen.
func Unmarked(moved int64, seen bool) string {
	out := "must be found by eye"
	if seen {
		out += fmt.Sprintf(": the picture has moved a pixel only after %s", plain.Count(moved, "captured frame"))
	}
	return out + "; [sync-mark] in the shot would mark it: an output of the rig, a twitch, the click track"
}

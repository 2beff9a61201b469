// Package header writes the lines that stand at the top of every exported
// file: what it is, what it was made from and whether it passed its checks.
package header

import (
	"fmt"
	"strings"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/plain"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/verify"
)

// Head is what exported files say of the plan that they were made from.
type Head struct {
	Title, Plan    string // plain, on one line
	Passed         bool   // all that the verifier looked at
	Fails, Unknown []string
	lines          []string
}

// Of returns the head of the files of a plan.
func Of(p *plan.Plan, v verify.Verdict) Head {
	h := Head{Title: Clean(p.Title), Plan: p.Hash(), Passed: v.OK, Fails: CleanAll(v.Fails), Unknown: CleanAll(v.Unknown)}
	h.lines = append(h.lines, "shot: "+h.Title, "rig: "+Clean(p.Rig.Name))
	for i := range p.Axes {
		h.lines = append(h.lines, "axis: "+axisLine(p.Axes[i].Rig))
	}
	for i := range p.Stands {
		h.lines = append(h.lines, "stand: "+standLine(&p.Stands[i]))
	}
	h.lines = append(h.lines, "clock: "+clockLine(p.Loop.Clock), "loop: "+loopLine(p.Loop))
	if p.Back > 0 {
		h.lines = append(h.lines, "way back: "+backLine(p))
	}
	if !p.AtRest() {
		h.lines = append(h.lines, "run-up: "+rampLine(p))
	}
	h.lines = append(h.lines, "plan: "+h.Plan)
	h.lines = append(h.lines, verdictLines(v)...)
	for _, c := range p.Rig.Cautions {
		h.lines = append(h.lines, "caution: "+Clean(c))
	}
	return h
}

// Lines returns the header of a file that holds what, one "key: value" a line,
// without comment marks and without control characters.
func (h Head) Lines(what string) []string {
	return append([]string{"seamrail: " + what}, h.lines...)
}

func axisLine(a rig.Axis) string {
	s := Clean(a.Name) + " in " + a.Unit()
	if a.StepsPerUnit.Sign() > 0 {
		s += fmt.Sprintf(", %s steps/%s", a.StepsPerUnit.Decimal(6), a.Unit())
	}
	if a.Letter != "" {
		s += ", word " + Clean(a.Letter)
	}
	if a.Mechanics != "" {
		s += ", " + Clean(a.Mechanics)
	}
	return s
}

// standLine says of a stand what nobody who runs the file can see in it.
func standLine(s *plan.Stand) string {
	start := "start it by hand before the take"
	if s.Rig.Phased {
		start = "start it so that frame 0 finds it at " + s.Spin.Start.Decimal(3) + " deg"
	}
	return fmt.Sprintf("%s turns by itself, %s at its speed %s, %s s a turn; %s", Clean(s.Rig.Name),
		s.Rig.Direction, Clean(s.Speed.Name), s.Speed.Period.Decimal(4), start)
}

func clockLine(c clock.Clock) string {
	return fmt.Sprintf("capture %s, playback %s frames/s, retime %s",
		clock.RateText(c.Capture), clock.RateText(c.Playback), c.Retime)
}

func loopLine(l clock.Loop) string {
	return fmt.Sprintf("%d timeline frames, %s s on screen; %d captured frames, %s s while filmed",
		l.Screen, l.OnScreen().Decimal(6), l.Captured, l.Real().Decimal(9))
}

// backLine says what follows each round of a loop that is cut back.
func backLine(p *plan.Plan) string {
	return fmt.Sprintf("%d captured frames after each loop, %s s, unseen; a round is %s s", p.Back,
		p.Loop.Clock.FrameTime(p.Back).Decimal(6), p.Round().Decimal(9))
}

func rampLine(p *plan.Plan) string {
	c := p.Loop.Clock
	return fmt.Sprintf("%d captured frames, %s s; run-out: %d, %s s", p.RunUp,
		c.FrameTime(p.RunUp).Decimal(6), p.RunOut, c.FrameTime(p.RunOut).Decimal(6))
}

func verdictLines(v verify.Verdict) []string {
	lines := []string{"checks: frames, limits, seam and steps passed"}
	if len(v.Steps) == 0 {
		lines = []string{"checks: frames, limits and seam passed"}
	}
	if !v.OK {
		lines = []string{"checks: FAILED, written because it was forced"}
	}
	for _, f := range v.Findings {
		if !f.OK {
			lines = append(lines, "failed: "+Clean(strings.TrimSpace(f.Axis+" "+f.Text)))
		}
	}
	if len(v.Fails) > 0 {
		lines = append(lines, "will not do: "+Clean(strings.Join(v.Fails, ", ")))
	}
	if len(v.Unknown) > 0 {
		lines = append(lines, "not known: "+Clean(strings.Join(v.Unknown, ", ")))
	}
	return lines
}

// Write appends the lines to buf, each after mark and before a newline.
func Write(buf []byte, mark string, lines []string) []byte {
	for _, l := range lines {
		buf = append(append(append(buf, mark...), l...), '\n')
	}
	return buf
}

// Clean returns s on one line, and plain.
func Clean(s string) string { return plain.Line(s) }

// CleanAll returns each of a list as Clean does, never nil.
func CleanAll(list []string) []string {
	out := make([]string, len(list))
	for i, s := range list {
		out[i] = Clean(s)
	}
	return out
}

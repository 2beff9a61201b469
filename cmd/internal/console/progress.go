package console

import (
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/schollz/progressbar/v3"

	"seamrail/export/drive"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/unit"
)

const (
	barWidth = 8
	barSteps = 1000
	// barRoom is what bar, percentage and their edges take of a line.
	barRoom = barWidth + 9
)

// Progress draws the bar, or on a plain page a line a round.
func (p *Panel) Progress(g drive.Progress) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if !p.Live {
		p.plain(g)
		return
	}
	if q, ok := p.Out.(interface{ Busy() bool }); ok && q.Busy() {
		return // the next one tells more
	}
	if p.bar == nil {
		p.bar = progressbar.NewOptions(barSteps+1, // a bar that is full is not drawn again
			progressbar.OptionSetWriter(p.Out), progressbar.OptionSetWidth(barWidth),
			progressbar.OptionSetPredictTime(false), progressbar.OptionSetElapsedTime(false),
			progressbar.OptionClearOnFinish())
	}
	p.bar.Describe(p.short(g, p.Width-barRoom))
	_ = p.bar.Set(int(math.Round(g.Share * barSteps)))
}

// plain tells each round once, or each frame of a take frame by frame.
func (p *Panel) plain(g drive.Progress) {
	at := g.Round
	if g.Of > 0 {
		at = g.Taken // a line a frame
	}
	if g.State != drive.Running || at == p.round {
		return
	}
	p.round = at
	p.line("%s", strings.Join(p.facts(g), "  "))
}

// facts are what a plain line says.
func (p *Panel) facts(g drive.Progress) []string {
	out := append([]string{p.called(g.Take)}, where(g)...)
	for i, a := range p.Axes {
		if i < len(g.Position) {
			out = append(out, fmt.Sprintf("%s %.2f %s%s", a.Name, g.Position[i], a.Unit, deviation(g, i)))
		}
	}
	return append(out, state(g)...)
}

// short is the same for a line of a width, with a bar: in words if they fit,
// else tight, and of that what fits.
func (p *Panel) short(g drive.Progress, width int) string {
	words, tight := where(g), []string{tightly(g)}
	for i, a := range p.Axes {
		if i < len(g.Position) {
			words = append(words, fmt.Sprintf("%s %.2f%s", a.Name, g.Position[i], deviation(g, i)))
			tight = append(tight, fmt.Sprintf("%s %.2f%s", a.Name, g.Position[i], strings.TrimSpace(deviation(g, i))))
		}
	}
	words = append(words, state(g)...)
	if text := strings.Join(words, "  "); len(text) <= width {
		return text
	}
	if g.Fill > 0 {
		tight = append(tight, fmt.Sprintf("buf %.0f%%", g.Fill*100))
	}
	return fitted(tight, width)
}

// tightly is where in few characters: "r4 f28 01:00:01:04".
func tightly(g drive.Progress) string {
	if g.Of > 0 {
		return fmt.Sprintf("f%d/%d", g.Taken, g.Of)
	}
	if g.Round < 0 {
		return "run-up"
	}
	if g.Back {
		return fmt.Sprintf("r%d back", g.Round+1)
	}
	return fmt.Sprintf("r%d f%d %s", g.Round+1, g.Frame, g.Timecode)
}

// where is the place in the take.
func where(g drive.Progress) []string {
	if g.Of > 0 {
		return frames(g)
	}
	if g.Round < 0 {
		return []string{"run-up"}
	}
	if g.Back {
		return []string{fmt.Sprintf("round %d", g.Round+1), "on the way back"}
	}
	return []string{fmt.Sprintf("round %d", g.Round+1), fmt.Sprintf("frame %d", g.Frame), g.Timecode}
}

// frames is how far a take frame by frame has come.
func frames(g drive.Progress) []string {
	out := []string{fmt.Sprintf("%d of %d frames", g.Taken, g.Of)}
	if g.Taken < g.Of {
		out = append(out, fmt.Sprintf("next frame %d", g.Frame), g.Timecode)
	}
	if g.Left > 0 {
		out = append(out, plain.Spell(g.Left.Seconds())+" left")
	}
	return out
}

// deviation is by how much an axis is off, as far as that is known: " +0.02".
func deviation(g drive.Progress, i int) string {
	if !g.Reported || i >= len(g.Deviation) {
		return ""
	}
	return fmt.Sprintf(" %+.2f", g.Deviation[i])
}

// state is how the controller is supplied, and whether that is in time.
func state(g drive.Progress) []string {
	var out []string
	if g.Late > lateWorthSaying {
		out = append(out, fmt.Sprintf("late %.0f ms", g.Late*1000))
	}
	if g.Fill > 0 {
		out = append(out, fmt.Sprintf("buffer %.0f %%", g.Fill*100))
	}
	return out
}

// lateWorthSaying is a millisecond: a pass is held to that.
const lateWorthSaying = 0.001

// fitted joins as many of the parts as go into width.
func fitted(parts []string, width int) string {
	text := parts[0]
	for _, s := range parts[1:] {
		if len(text)+1+len(s) > width {
			break
		}
		text += " " + s
	}
	return text
}

// clear takes the bar off the line, for text to be written there.
func (p *Panel) clear() {
	if p.hand.shown > 0 {
		p.over("")
		_, _ = io.WriteString(p.Out, "\r")
	}
	if p.bar != nil {
		_ = p.bar.Clear()
	}
}

// Passed sums a pass up.
func (p *Panel) Passed(x drive.Pass) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.clear()
	p.bar, p.round = nil, -2
	if !x.Walk {
		p.taken = x.Take
	}
	parts := []string{fmt.Sprintf("%s: %s", upper(p.called(x.Take)), x.End)}
	if x.Rounds > 0 && x.Of == 0 {
		parts = append(parts, plain.Count(x.Rounds, "round"))
	}
	switch {
	case x.Of > 0:
		parts = append(parts, fmt.Sprintf("%d of %d frames", x.Frames, x.Of))
	case x.Executed > 0:
		parts = append(parts, took(x))
	}
	for i, a := range p.Axes {
		if i < len(x.Worst) && x.Executed > 0 {
			parts = append(parts, fmt.Sprintf("%s within %s", a.Name, within(x.Worst[i], a)))
		}
	}
	if x.Held {
		parts = append(parts, "held on the way, so out of step with the frames")
	}
	text := strings.Join(parts, ", ")
	if x.Detail != "" {
		text += "; " + x.Detail
	}
	p.line("%s.", text)
}

// called is what a take is called: one of which there is no film is never called
// as one of which there is. A walk through the plan has no number.
func (p *Panel) called(take int) string {
	switch {
	case take == 0:
		return "walk"
	case p.Virtual:
		return fmt.Sprintf("virtual take %d", take)
	}
	return fmt.Sprintf("take %d", take)
}

func upper(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// worstGrain is how finely a deviation is told: controllers report no finer.
const worstGrain = 0.001

func within(worst float64, a Axis) string {
	dim := unit.Length
	if a.Unit == "deg" {
		dim = unit.Angle
	}
	return unit.Format(math.Ceil(math.Abs(worst)/worstGrain)*worstGrain, dim)
}

// took tells how long a pass took, and how sure that is.
func took(x drive.Pass) string {
	if x.Uncertainty == 0 {
		return fmt.Sprintf("%.3f s for %.3f s", x.Executed, x.Planned)
	}
	return fmt.Sprintf("%.3f s, give or take %.1f ms, for %.3f s", x.Executed, x.Uncertainty*1000, x.Planned)
}

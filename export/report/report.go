package report

import (
	"fmt"
	"io"

	"seamrail/motion/clock"
	"seamrail/motion/exact"
	"seamrail/motion/plan"
	"seamrail/motion/source"
	"seamrail/motion/trajectory"
	"seamrail/motion/verify"
)

// Options says how the report is dressed.
type Options struct {
	Colour bool     // ANSI colours and drawn bars, for a terminal
	Fits   []string // what would fit instead, in words; for a plan that does not
}

// Write writes the report as text of at most 80 columns, plain unless
// opt.Colour. The error is the writer's.
func Write(w io.Writer, t *trajectory.Trajectory, v verify.Verdict, opt Options) error {
	p := &page{colour: opt.Colour}
	pl := t.Plan()
	p.title(pl)
	p.verdict(pl, v, opt.Fits)
	p.loop(pl.Loop)
	p.take(pl)
	for i := range pl.Axes {
		p.axis(pl, &pl.Axes[i], v, i)
	}
	p.defaults(pl.Defaults)
	p.cautions(pl)
	_, err := io.WriteString(w, p.b.String())
	return err
}

func (p *page) title(pl *plan.Plan) {
	for _, l := range fold(clean(pl.Title), pageWidth) {
		p.line(p.paint(bold+";"+cyan, l))
	}
	p.line(p.paint(dim, clean(pl.Rig.Name)+" · plan "+pl.Hash()))
}

// verdict comes first: whether to press the button.
func (p *page) verdict(pl *plan.Plan, v verify.Verdict, fits []string) {
	p.blank()
	breaches := apart(pl.Breaches())
	good, words := verdictWords(breaches, v)
	if good {
		p.mark(green, "READY", words)
		return
	}
	p.mark(red, "NOT READY", words)
	for _, b := range breaches {
		f := pl.Fault(b)
		f.File, f.Line, f.Column = "", 0, 0
		p.bullet(red, "x", f.String())
	}
	if len(breaches) == 0 {
		for _, f := range v.Failed() {
			p.bullet(red, "x", axisText(f))
		}
	}
	for _, fit := range fits {
		p.bullet(green, "+", fit)
	}
}

// apart leaves out what a run-up or run-out breaks because the loop does: a
// table that is too fast in the loop is too fast on its way there.
func apart(all []plan.Breach) []plan.Breach {
	type key struct{ axis, quantity string }
	seen := map[key]bool{}
	var out []plan.Breach
	for _, b := range all {
		k := key{b.Axis, b.Quantity}
		if !seen[k] || b.Phase == "loop" {
			out = append(out, b)
		}
		seen[k] = true
	}
	return out
}

func (p *page) mark(code, stamp, words string) {
	for i, l := range fold(words, pageWidth-length(stamp)-2) {
		head := p.paint(bold+";"+code, stamp)
		if i > 0 {
			head = spaces(length(stamp))
		}
		p.line(head + "  " + l)
	}
}

// verdictWords tells whether the plan may run, and why in an operator's words.
func verdictWords(breaches []plan.Breach, v verify.Verdict) (good bool, words string) {
	switch {
	case len(breaches) > 0:
		return false, fmt.Sprintf("The move asks for more than the rig can do, in %s.", counted(int64(len(breaches)), "place"))
	case !v.OK:
		return false, fmt.Sprintf("The move is within the limits, but %s did not pass.", counted(int64(len(v.Failed())), "check"))
	}
	return true, "The loop closes, the rig can do it, and every check passed."
}

func axisText(f verify.Finding) string {
	if f.Axis == "" {
		return f.Check + ": " + f.Text
	}
	return "axis " + f.Axis + ": " + f.Check + ": " + f.Text
}

func (p *page) loop(l clock.Loop) {
	c := l.Clock
	p.section("LOOP")
	p.field("asked for", l.Asked)
	became := fmt.Sprintf("%s, %s on screen", counted(l.Screen, "frame"), seconds(l.OnScreen()))
	if l.Rounded {
		became += ", the nearest whole loop"
	}
	p.field("became", became)
	p.field("captured", fmt.Sprintf("%s in %s of real time", counted(l.Captured, "frame"), seconds(l.Real())))
	p.field("deliver", deliverWords(l.Captured))
	p.field("never", fmt.Sprintf("deliver frame %d: it is frame 0 again, and the loop would hitch", l.Captured))
	p.field("capture", clock.RateText(c.Capture)+" frames/s")
	p.field("playback", clock.RateText(c.Playback)+" frames/s")
	p.field("pace", fmt.Sprintf("retime %s, %s", c.Retime, pace(c.Retime)))
	cadence := c.Cadence()
	if cadence.Even {
		p.field("cadence", cadence.Text)
		return
	}
	p.inked(yellow, "cadence", cadence.Text+"; an even retime moves more smoothly")
}

func deliverWords(captured int64) string {
	if captured == 1 {
		return "frame 0"
	}
	return fmt.Sprintf("frames 0 to %d", captured-1)
}

func (p *page) take(pl *plan.Plan) {
	t := takeOf(pl)
	c := pl.Loop.Clock
	p.section("TAKE")
	p.field("record", fmt.Sprintf("%s: %s of real time", counted(t.recorded, "frame"), seconds(c.FrameTime(t.recorded))))
	p.field("made of", takeParts(pl))
	p.field("keep", fmt.Sprintf("round %d: recorded frames %d to %d, counted from 0", t.round+1, t.first, t.last))
	if t.handles > 0 {
		p.field("handles", handleWords(t))
	}
	first, last := pl.Start, pl.Start+pl.Loop.Screen-1
	p.field("timecode", fmt.Sprintf("%s to %s", pl.Timecode.Label(first), pl.Timecode.Label(last)))
}

func takeParts(pl *plan.Plan) string {
	words := fmt.Sprintf("%s of %s", counted(int64(pl.Rounds), "round"), counted(pl.Loop.Captured, "frame"))
	if pl.RunUp > 0 {
		words = fmt.Sprintf("run-up of %s, %s", counted(pl.RunUp, "frame"), words)
	}
	if pl.RunOut > 0 {
		words += fmt.Sprintf(", run-out of %s", counted(pl.RunOut, "frame"))
	}
	return words
}

func handleWords(t take) string {
	words := fmt.Sprintf("%s on either side, recorded frames %d to %d",
		counted(t.handles, "captured frame"), t.first-t.handles, t.last+t.handles)
	if t.short {
		words = fmt.Sprintf("%s on either side is more than the take holds at pace; record more rounds",
			counted(t.handles, "captured frame"))
	}
	return words
}

func (p *page) defaults(defaults []source.Default) {
	if len(defaults) == 0 {
		return
	}
	p.section("FILLED IN FOR YOU")
	for _, d := range defaults {
		text := clean(d.Key) + " = " + clean(d.Value)
		if d.Why != "" {
			text += ": " + clean(d.Why)
		}
		p.bullet(dim, "-", text)
	}
}

func (p *page) cautions(pl *plan.Plan) {
	p.section("BEFORE IT MOVES")
	for _, c := range cautions(pl) {
		p.bullet(yellow, "!", clean(c))
	}
}

// steps per loop, exact where the loop gains a part of a step.
func stepWords(s verify.AxisSteps) string {
	words := fmt.Sprintf("%s forward, %d back a loop", counted(s.Forward, "step"), s.Backward)
	switch {
	case s.Gain.Sign() == 0:
		return words + "; it ends on the step it began on"
	case s.Gain.IsInt():
		return words + fmt.Sprintf("; it gains %s exactly", s.Gain)
	}
	return words + fmt.Sprintf("; it gains %s exactly, the rest is carried to the next", exactWords(s.Gain))
}

func exactWords(r exact.Rat) string { return fmt.Sprintf("%s (%s)", r.Decimal(secondDigits), r) }

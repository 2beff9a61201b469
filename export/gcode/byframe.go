package gcode

import (
	"bufio"
	"fmt"
	"io"
	"math"

	"seamrail/export/header"
	"seamrail/motion/controller/program"
	"seamrail/motion/controller/rs274"
	"seamrail/motion/plan/stepwise"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// dwellDecimals is how many decimals dwells have: a microsecond, as in other programs.
const dwellDecimals = 6

// WriteByFrame writes a take frame by frame as a program: the header and the cautions as
// comments, a gentle way to the first frame, a stop, and for each frame its moves, a line an
// axis, a dwell until it is exposed, the words of the output that the release hangs on with
// the exposure between them, or a stop where a hand is waited for. The error is the
// writer's, wrapped, or says what does not fit the format.
func WriteByFrame(w io.Writer, t *trajectory.Trajectory, s *stepwise.Schedule, head header.Head, opt Options) error {
	if err := program.Check(t); err != nil {
		return err
	}
	b := framePrinter{t: t, s: s, c: t.Rig().Controller, opt: opt}
	if name := s.ByFrame().Output; name != "" {
		b.release, _ = t.Rig().Output(name)
		if b.release.On == "" || b.release.Off == "" {
			return fmt.Errorf("output %s has no lines that switch it, and a program is made of lines", name)
		}
	}
	out := bufio.NewWriterSize(w, 1<<16)
	b.printer = &printer{out: out, longest: longestOf(b.c)}
	b.comments(append(head.Lines("RS-274/NGC program, frame by frame"), b.head()...))
	b.start()
	for n := range s.Frames() {
		b.frame(s.Frame(n))
	}
	b.back()
	if err := out.Flush(); err != nil {
		return fmt.Errorf("writing the program: %w", err)
	}
	return nil
}

type framePrinter struct {
	*printer
	t       *trajectory.Trajectory
	s       *stepwise.Schedule
	c       rig.Controller
	opt     Options
	release rig.Output // "" where a hand takes the frames
}

func (b *framePrinter) head() []string {
	by := b.s.ByFrame()
	out := []string{"units: mm, degrees, seconds", "feed: G94, one axis at a time, F is mm or degrees a minute",
		fmt.Sprintf("frames: %d, one every %s s by its own times, %.1f s from the first to the end of the last", b.s.Frames(), b.s.Every().Decimal(3), b.s.Seconds()),
		fmt.Sprintf("settling: %.3f s at most after a move, before the exposure", b.s.Needs.Settle)}
	switch {
	case b.release.Name != "":
		out = append(out, fmt.Sprintf("shutter: output %s, %s on and %s off", b.release.Name, b.release.On, b.release.Off))
		if by.Bulb {
			out = append(out, fmt.Sprintf("shutter: the release is held for the exposure, %.3f s as this controller dwells", b.grains(by.Exposure.Float())))
		}
	case by.Waits:
		out = append(out, "shutter: by hand; at each M0 take the frame, and press cycle start when it is exposed",
			"shutter: controllers differ in M0: most wait for a button or a resume, a few go on at once or end there; find out with the motors off")
	default:
		out = append(out, fmt.Sprintf("shutter: by hand, within %s s of the end of each dwell", by.Hand.Decimal(3)))
	}
	if b.c.IdleDelay > 0 {
		out = append(out, "while it waits its motors have no current: see that nothing slides, or have them keep it")
	}
	return append(out, "nothing is known of what a power cut leaves exposed: the comment before each frame has its number",
		"the first moves go to the first frame, one axis at a time: see that the way is clear")
}

// grains is a dwell as the controller makes it: whole grains, where it has any.
func (b *framePrinter) grains(sec float64) float64 {
	if g := b.c.DwellGrain; g > 0 {
		return g * math.Ceil(sec/g-grainHair)
	}
	return sec
}

// grainHair is what a time may be above a whole number of grains, in grains, and count as
// that number.
const grainHair = 1e-6

func (b *framePrinter) dwell(sec float64) {
	if sec = b.grains(sec); sec > 0 {
		b.line(string(rs274.Append([]byte("G4 P"), sec, dwellDecimals)))
	}
}

// goTo moves one axis to a place.
func (b *framePrinter) goTo(axis int, to float64) {
	a := b.t.Axis(axis)
	text := rs274.Append([]byte("G1 "+a.Letter), to, b.c.Decimals)
	b.line(string(rs274.Append(append(text, " F"...), stepwise.GentleSpeed(a)*secondsMinute, b.c.FeedDecimals)))
}

const secondsMinute = 60

func (b *framePrinter) start() {
	b.comment("to the first frame")
	b.line("G21 G90")
	b.line("G94")
	for _, places := range [][]float64{b.s.Approach(0), b.s.Places(0)} {
		for i, at := range places {
			b.goTo(i, at)
		}
	}
	if !b.opt.NoStop {
		b.comment("it waits here for cycle start, and then counts in")
		b.line(program.Stop)
	}
	b.dwell(math.Max(float64(b.opt.CountIn), b.s.Needs.Settle))
}

// frame makes the lines of a frame. What is left of its time is waited before it is
// exposed, so that the rig has come to rest the better.
func (b *framePrinter) frame(f stepwise.Frame) {
	by := b.s.ByFrame()
	b.comment(fmt.Sprintf("frame %d, round %d, at %s s", f.Index, f.Round+1, f.Opens.Decimal(3)))
	for _, m := range f.Moves {
		b.goTo(m.Axis, b.s.Unit(m.Axis, m.To))
	}
	if f.Number > 0 {
		spare := float64(f.Need.Gaps) * (b.s.Every().Float() - f.Need.Seconds())
		if by.Waits {
			spare = 0
		}
		b.dwell(f.Settle + math.Max(spare, 0))
	}
	open := by.Exposure.Float()
	switch {
	case b.release.Name != "":
		held := open
		if !by.Bulb {
			held = b.release.Pulse
		}
		b.line(b.release.On)
		b.dwell(held)
		b.line(b.release.Off)
		b.dwell(math.Max(open-b.grains(held), 0) + b.release.Late + b.release.Unsure + by.Card.Float())
	case by.Waits:
		b.line(program.Stop)
	default:
		b.dwell(by.Hand.Float() + open + by.Card.Float())
	}
}

// back closes the loop: the last frame goes on to the first.
func (b *framePrinter) back() {
	b.comment("back to the first frame")
	for i, at := range b.s.Places(b.s.Frames()) {
		b.goTo(i, at)
	}
	b.line("M2")
}

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
// comments, a gentle way to the first frame, a stop, and for each frame its moves, axes
// together, a dwell until it is exposed, the words of the output that the release hangs on with
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
	now     float64    // s from the first exposure, by the program's own times
}

func (b *framePrinter) head() []string {
	by := b.s.ByFrame()
	out := []string{"units: mm, degrees, seconds", "feed: of one axis alone G94, F is mm or degrees a minute; of several together as the controller is told its loops",
		fmt.Sprintf("frames: %d, one every %s s by its own times, %.1f s from the first to the end of the last", b.s.Frames(), b.s.Every().Decimal(3), b.s.Seconds()),
		fmt.Sprintf("settling: %.3f s at most after a move, before the exposure", b.s.Settles())}
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
		b.now += sec
	}
}

// goTo moves one axis to a place.
func (b *framePrinter) goTo(axis int, to float64) {
	a := b.t.Axis(axis)
	text := rs274.Append([]byte("G1 "+a.Letter), to, b.c.Decimals)
	feed := stepwise.GentleSpeed(a) * secondsMinute
	if b.c.PathFeed == rig.AlongAll {
		feed *= rs274.Weight(b.c, a)
	}
	b.line(string(rs274.Append(append(text, " F"...), feed, b.c.FeedDecimals)))
}

const secondsMinute = 60

// leg moves the axes of a leg, all in one line.
func (b *framePrinter) leg(l stepwise.Leg) {
	if m := l.Moves[0]; len(l.Moves) == 1 {
		b.goTo(m.Axis, b.s.Unit(m.Axis, m.To))
		return
	}
	text := []byte("G1")
	for _, m := range l.Moves {
		text = rs274.Append(append(text, " "+b.t.Axis(m.Axis).Letter...), b.s.Unit(m.Axis, m.To), b.c.Decimals)
	}
	axes := make([]rig.Axis, b.t.AxisCount())
	for i := range axes {
		axes[i] = b.t.Axis(i)
	}
	mode, feed, _ := stepwise.FeedWords(b.c, axes, b.s.By(l.Moves))
	if mode != perMinute {
		b.line(mode)
		defer b.line(perMinute)
	}
	b.line(string(text) + " " + feed)
}

// perMinute is the mode in which one axis at a time is told its feed.
const perMinute = "G94"

func (b *framePrinter) start() {
	b.comment("to the first frame")
	b.line("G21 G90")
	b.line(perMinute)
	for _, places := range [][]float64{b.s.Approach(0), b.s.Places(0)} {
		for i, at := range places {
			b.goTo(i, at)
		}
	}
	if !b.opt.NoStop {
		b.comment("it waits here for cycle start, and then counts in")
		b.line(program.Stop)
	}
	b.dwell(math.Max(float64(b.opt.CountIn), b.s.Arrival(b.s.Approach(0), 0)))
}

// frame makes the lines of a frame. What is left until it is due is waited before it is
// exposed, so that the rig has come to rest the better, and no grain adds up.
func (b *framePrinter) frame(f stepwise.Frame) {
	by := b.s.ByFrame()
	b.comment(fmt.Sprintf("frame %d, round %d, at %s s", f.Index, f.Round+1, f.Opens.Decimal(3)))
	for _, l := range f.Legs {
		b.leg(l)
		b.now += l.Made()
	}
	switch {
	case f.Number == 0:
		b.now = 0
	case by.Waits:
		b.dwell(f.Settle)
	default:
		b.dwell(math.Max(f.Settle, f.Opens.Float()-b.now))
	}
	open := by.Exposure.Float()
	switch {
	case b.release.Name != "":
		held := b.s.Held()
		b.line(b.release.On)
		b.dwell(held)
		b.line(b.release.Off)
		b.dwell(math.Max(open+f.Need.Release-b.grains(held), 0) + by.Card.Float())
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

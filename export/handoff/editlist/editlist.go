// Package editlist writes a clip as a list of edits in the layout of CMX 3600, one line an
// event, which nearly every edit program reads.
//
// The layout is standardised as SMPTE ST 258 (Transfer of Edit Decision Lists, 2004), which
// was not at hand. What is written here follows descriptions of it: the manuals of edit
// controllers and programs that read and write such lists, and the documentation of the
// reader of the Academy Software Foundation's OpenTimelineIO (cmx_3600 adapter).
//
//   - `TITLE:` and `FCM: NON-DROP FRAME` or `FCM: DROP FRAME` stand first.
//   - An event has its number (3 digits), the reel (8 characters), `V`, `C` for a cut, and
//     four labels: in and out of the recording, in and out of the clip, out being the first
//     frame that is not shown.
//   - A dissolve is two lines of one number: the outgoing recording, of no length, and the
//     incoming one with `D` and how many frames it dissolves from its beginning on.
//   - `M2` tells the speed of a recording that is not played frame for frame, in frames a
//     second with one decimal.
//   - Lines that begin with `*` are comments; of these `* LOC:` is a marker that many read.
//
// Labels of a recording count its captured frames from the first in which the take moves,
// as if the recording were played at the rate of the timeline. Of a take whose film was looked
// through they are that film's own timecode, where it counts as the list does, else its frames
// from 0 in the same way; a comment says which.
package editlist

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"seamrail/export/header"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/edit/sequence"
	"seamrail/motion/edit/timeline"
)

// The limits of the layout.
const (
	// MaxEvents is what three digits hold.
	MaxEvents = 999
	// maxTitle is what a line of 80 holds beside "TITLE: ".
	maxTitle = 70
	// maxSpeed is what three digits and a decimal hold, in frames/s.
	maxSpeed = 999.95
)

// bases are how many frames a second the labels can count.
var bases = []int64{24, 25, 30}

// Unfit is an error that says what of a clip a list of edits does not hold, and what would
// fit; nil where it holds all of it.
func Unfit(t timeline.Timeline) error {
	c := t.Clip
	tc := c.Timecode
	if !labelled(tc) {
		return fmt.Errorf("a list of edits labels 24, 25 or 30 frames a second, drop-frame or not, and the clip plays at %s; timeline.otio holds any rate",
			clock.RateText(c.Playback))
	}
	if n := len(t.Events); n > MaxEvents {
		return fmt.Errorf("a list of edits holds %d events, and the clip has %d; cut the sequence in two", MaxEvents, n)
	}
	if c.Start+c.Frames > tc.Day() {
		return fmt.Errorf("the labels of a list of edits end at 24 hours, and the clip goes on to %s of the next day; an earlier timecode would do", c.Label(c.Frames))
	}
	for i, e := range t.Events {
		if err := unfitEvent(t, i, e); err != nil {
			return err
		}
	}
	return nil
}

func unfitEvent(t timeline.Timeline, i int, e timeline.Event) error {
	where := fmt.Sprintf("event %d, %s", i+1, t.Piece(e).Entry.File)
	if len(e.Reel) > sequence.MaxReel {
		return fmt.Errorf("%s: the reel %q has %d characters, and a list of edits holds %d; give the shot a reel in the sequence", where, e.Reel, len(e.Reel), sequence.MaxReel)
	}
	if day := exact.Int(t.Clip.Timecode.Day()); day.Less(e.First.Add(e.Used)) {
		return fmt.Errorf("%s: the take has more frames than the labels of a day count", where)
	}
	if n := e.Lacks(); n > 0 {
		return fmt.Errorf("%s: %s lacks %s of it; another take, or fewer rounds of it, would do", where, e.Film.File, plain.Count(n, "frame"))
	}
	if v := speed(t, e); v >= maxSpeed {
		return fmt.Errorf("%s: is played at %.1f frames/s, and a list of edits holds 999.9", where, v)
	}
	return nil
}

func labelled(tc clock.Timecode) bool {
	n := exact.Int(tc.Nominal())
	for _, base := range bases {
		if base == tc.Nominal() && (tc.Rate.Equal(n) || tc.Rate.Equal(n.Mul(exact.New(1000, 1001)))) {
			return true
		}
	}
	return false
}

// speed is how fast a recording is played, in its frames for as many labels as a second has.
func speed(t timeline.Timeline, e timeline.Event) float64 {
	return t.Piece(e).Shot.Clock.PerScreen().Mul(exact.Int(t.Clip.Timecode.Nominal())).Float()
}

// Write writes the list. The error is Unfit's, or the writer's, wrapped.
func Write(w io.Writer, t timeline.Timeline) error {
	if err := Unfit(t); err != nil {
		return err
	}
	l := list{t: t}
	mode := "NON-DROP FRAME"
	if t.Clip.Timecode.Drop {
		mode = "DROP FRAME"
	}
	l.line("TITLE: %s", fitted(t.Clip.Title, maxTitle))
	l.line("FCM: %s", mode)
	for i := range t.Events {
		l.event(i)
	}
	if _, err := w.Write(l.out.Bytes()); err != nil {
		return fmt.Errorf("writing the list of edits: %w", err)
	}
	return nil
}

// fitted is a text in the characters of such lists, ASCII, cut to so many.
func fitted(text string, most int) string {
	text = strings.Map(func(r rune) rune {
		if r < ' ' || r > '~' {
			return '?'
		}
		return r
	}, header.Clean(text))
	return strings.TrimSpace(text[:min(len(text), most)])
}

// list is a list being written.
type list struct {
	t     timeline.Timeline
	out   bytes.Buffer
	takes int // events so far whose labels count from where a take begins to move
}

func (l *list) line(format string, a ...any) { fmt.Fprintf(&l.out, format+"\n", a...) }

// span is a stretch of a recording and of the clip.
type span struct {
	in, out  exact.Rat
	from, to int64
}

// whole are the frames of the recording, part ones included; none of a span of no length.
func (s span) whole() (in, out int64) {
	if in = s.in.Floor().Whole(); s.from == s.to {
		return in, in
	}
	return in, s.out.Ceil().Whole()
}

// line of an event, or of one side of a dissolve: number is that of the list, and e what is shown.
func (l *list) edit(number int, e timeline.Event, how string, s span) {
	record := l.t.Clip.Label
	in, out := s.whole()
	l.line("%03d  %-8s V     %-8s %s %s %s %s", number, e.Reel, how, l.source(e, in), l.source(e, out), record(s.from), record(s.to))
}

// event writes one event. The list has a dissolve begin with what comes in, so that what
// it takes of the event before is written here.
func (l *list) event(i int) {
	e := l.t.Events[i]
	s := l.shown(i)
	if into := l.into(i); into.Length() > 0 {
		a := l.shown(i - 1)
		l.edit(i+1, l.t.Events[i-1], "C", span{a.out, a.out, a.to, a.to})
		l.edit(i+1, e, fmt.Sprintf("D    %03d", into.Length()), s)
		l.speed(i-1, span{in: a.out})
		l.speed(i, s)
		l.line("* FROM CLIP NAME:  %s", l.name(i-1))
		l.line("* TO CLIP NAME:  %s", l.name(i))
	} else {
		l.edit(i+1, e, "C", s)
		l.speed(i, s)
		l.line("* FROM CLIP NAME:  %s", l.name(i))
	}
	if e.Clip != "" {
		l.line("* SOURCE FILE: %s", fitted(e.Clip, maxTitle))
	}
	l.exactly(i, s)
	if e.InFilm() {
		l.inFilm(e, s)
	} else if l.takes++; l.takes == 1 {
		l.line("* LABELS OF A REEL COUNT ITS CAPTURED FRAMES FROM WHERE THE TAKE BEGINS TO MOVE")
	}
	if e.Planned() {
		l.line("* NOT FILMED YET: THESE ARE THE FRAMES THAT THE PLAN FORESEES")
	}
	for _, m := range l.t.Marks {
		if m.Frame >= e.Start && m.Frame < e.End() {
			l.line("* LOC: %s %-7s %s", l.t.Clip.Label(m.Frame), m.What.Colour(), fitted(m.Name, maxTitle))
		}
	}
}

// into is the join that leads into an event.
func (l *list) into(i int) timeline.Join {
	if i == 0 {
		return timeline.Join{}
	}
	return l.t.Joins[i-1]
}

// shown is what the list shows of an event: from where a dissolve into it begins, to where
// one out of it begins.
func (l *list) shown(i int) span {
	e := l.t.Events[i]
	per := l.t.Piece(e).Shot.Clock.PerScreen()
	early := l.into(i).In
	var late int64
	if i+1 < len(l.t.Events) {
		late = l.t.Joins[i].In
	}
	at := func(frames int64) exact.Rat { return e.First.Add(exact.Int(frames).Mul(per)) }
	return span{at(-early), at(e.Frames - late), e.Start - early, e.End() - late}
}

// speed tells how fast a recording is played where that is not frame for frame.
func (l *list) speed(i int, s span) {
	e := l.t.Events[i]
	if l.t.Piece(e).Shot.Clock.PerScreen().Equal(exact.Int(1)) {
		return
	}
	in, _ := s.whole()
	l.line("M2   %-8s       %05.1f                %s", e.Reel, speed(l.t, e), l.source(e, in))
}

// exactly tells of an event what the list cannot say otherwise: at which rate it was
// recorded, and what had to be rounded.
func (l *list) exactly(i int, s span) {
	k := l.t.Piece(l.t.Events[i]).Shot.Clock
	l.line("* RECORDED AT %s FRAMES/S, SHOWN AT %s", clock.RateText(k.Capture), speedWords(k.Retime))
	if per := k.PerScreen(); !per.Equal(exact.Int(1)) {
		l.line("* SPEED EXACTLY: %s CAPTURED FRAMES FOR EACH THAT IS SHOWN", per)
	}
	if !s.in.IsInt() || !s.out.IsInt() {
		l.line("* IN AND OUT EXACTLY: CAPTURED FRAMES %s AND %s, PART ONES TAKEN IN", s.in, s.out)
	}
}

// speedWords call a retime by how it compares with what happened.
func speedWords(retime exact.Rat) string {
	switch one := exact.Int(1); {
	case retime.Equal(one):
		return "REAL SPEED"
	case one.Less(retime):
		return fmt.Sprintf("%s TIMES REAL SPEED", retime)
	}
	return fmt.Sprintf("%s OF REAL SPEED", retime)
}

// name is what the comments call an event.
func (l *list) name(i int) string {
	e := l.t.Events[i]
	if e.InFilm() {
		return fitted(e.Film.File, maxTitle)
	}
	return fitted(l.t.Piece(e).Entry.File+", "+e.Name(), maxTitle)
}

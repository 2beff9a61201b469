package console

import (
	"fmt"
	"strings"
	"time"

	"seamrail/export/drive"
	"seamrail/motion/base/plain"
)

const (
	// nudge is how long an axis goes on for a key of which nobody is told when it is let
	// go of: longer than the 30 to 50 ms in which terminals usually repeat one.
	nudge = 120 * time.Millisecond
	// firstHold is how long for one of which somebody is: until it is repeated first,
	// which is half a second at most (common practice).
	firstHold = 600 * time.Millisecond
	// nextHold is how long after that, if the terminal is lost without a word.
	nextHold = 150 * time.Millisecond
	// fineStep is how far a key goes that makes a step, in mm or degrees.
	fineStep = 0.1
)

// holds are the keys that move the chosen axis as long as they are held, and steps those
// that make a step of a tenth.
var (
	holds = map[Key]float64{Left: -1, Down: -1, Right: 1, Up: 1}
	steps = map[Key]float64{',': -fineStep, '.': fineStep}
)

// hand is what keys move an axis with.
type hand struct {
	chosen int  // index of the axis
	level  int  // of its speeds
	tells  bool // the terminal tells when a key is let go of
	key    Key  // the one that is held, or 0
	moving bool
	shown  int // characters of the line that tells where it is
}

// Stroke takes what becomes of a key and returns what it asks the engine for, if anything.
func (p *Panel) Stroke(s Stroke) (drive.Request, bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	switch {
	case s.Key == TellsLetGo:
		p.hand.tells = true
	case s.Key == Unseen, s.Event == LetGo && s.Key == p.hand.key:
		p.hand.key = 0
		return drive.Request{Kind: drive.JogRelease}, true
	case s.Event != LetGo:
		return p.cleared(p.press(s))
	}
	return drive.Request{}, false
}

// jog moves the chosen axis; Tab chooses the next.
func (p *Panel) jog(s Stroke) (drive.Request, bool) {
	h := &p.hand
	if len(p.Axes) == 0 {
		return drive.Request{}, false
	}
	a := p.Axes[h.chosen]
	way, held := holds[s.Key]
	by, step := steps[s.Key]
	switch {
	case s.Key == Tab:
		h.chosen = (h.chosen + 1) % len(p.Axes)
		p.line("%s", p.handWords())
	case s.Key == '+' || s.Key == '=':
		p.atLevel(h.level + 1)
	case s.Key == '-':
		p.atLevel(h.level - 1)
	case s.Key >= '1' && s.Key < '1'+Key(len(a.Speeds)):
		p.atLevel(int(s.Key - '1'))
	case held && len(a.Speeds) > 0:
		h.key, p.jogged[h.chosen] = s.Key, true
		return drive.Request{Kind: drive.JogHold, Axis: h.chosen, Speed: way * a.Speeds[min(h.level, len(a.Speeds)-1)], For: h.lasts(s)}, true
	case step:
		p.jogged[h.chosen] = true
		return drive.Request{Kind: drive.Jog, Axis: h.chosen, By: by}, true
	}
	return drive.Request{}, false
}

// lasts is how long an axis goes on for a stroke.
func (h *hand) lasts(s Stroke) time.Duration {
	switch {
	case !h.tells:
		return nudge
	case s.Event == Repeated:
		return nextHold
	}
	return firstHold
}

// atLevel chooses a speed.
func (p *Panel) atLevel(n int) {
	p.hand.level = min(max(n, 0), len(p.Axes[p.hand.chosen].Speeds)-1)
	p.line("%s", p.handWords())
}

// handWords say what the keys move, how fast, and what it costs that nobody is told when
// a key is let go of.
func (p *Panel) handWords() string {
	h := &p.hand
	a := p.Axes[h.chosen]
	text := "Arrows, held, move " + a.Name
	if len(a.Speeds) == 0 {
		return text + "."
	}
	level := min(h.level, len(a.Speeds)-1)
	speed := a.Speeds[level]
	text += fmt.Sprintf(" at up to %.3g %s/s, speed %d of %d.", speed, a.Unit, h.level+1, len(a.Speeds))
	if level < len(a.Rests) {
		text += fmt.Sprintf(" Let go of, it goes on for up to %.2g %s, as the rig file has it.", a.Rests[level].Way, a.Unit)
	}
	if p.Live && !h.tells {
		text += fmt.Sprintf(" This terminal does not tell when a key is let go of: it counts as held for %.2f s, up to %.2g %s more, and a tap is that short.",
			nudge.Seconds(), speed*nudge.Seconds(), a.Unit)
	}
	return text
}

// handKeys are the other keys of it.
func (p *Panel) handKeys() string {
	text := ""
	if len(p.Axes) > 1 {
		text = "Tab: another axis.  "
	}
	if n := len(p.Axes[p.hand.chosen].Speeds); n > 0 {
		text += fmt.Sprintf("1 to %d, + and -: its speed.  ", n)
	}
	return text + ", and . step by 0.1.  "
}

// Jogged shows where an axis is that is moved by hand: on a terminal as it goes, and a line
// when it rests.
func (p *Panel) Jogged(j drive.Jogged) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.hand.moving = j.Moving
	text := p.whereWords(j)
	if !j.Moving {
		p.line("%s", text)
		return
	}
	if !p.Live {
		return
	}
	if q, ok := p.Out.(interface{ Busy() bool }); ok && q.Busy() {
		return // the next one tells more
	}
	if p.Width > 1 && len(text) >= p.Width {
		text = text[:p.Width-1]
	}
	p.over(text)
}

// over writes a line over itself, without ending it.
func (p *Panel) over(text string) {
	_, _ = fmt.Fprint(p.Out, "\r"+text+strings.Repeat(" ", max(p.hand.shown-len(text), 0)))
	p.hand.shown = len(text)
}

// whereWords say where an axis is, and how far it is to its ends.
func (p *Panel) whereWords(j drive.Jogged) string {
	a := p.Axes[j.Axis]
	if j.Axis >= len(j.At) {
		return fmt.Sprintf("%s %+.3f %s; where it stands is not known", plain.Text(a.Name), j.Gone, a.Unit)
	}
	at := j.At[j.Axis]
	text := fmt.Sprintf("%s %.3f %s", plain.Text(a.Name), at, a.Unit)
	if !a.Endless && a.Max > a.Min {
		text += fmt.Sprintf("; %.3f to its end at %g, %.3f to that at %g", max(at-a.Min, 0), a.Min, max(a.Max-at, 0), a.Max)
	}
	return text
}

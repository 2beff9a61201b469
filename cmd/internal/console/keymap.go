package console

import (
	"strconv"
	"strings"
	"unicode"

	"seamrail/export/drive"
	"seamrail/export/drive/takelog"
	"seamrail/motion/base/plain"
)

// The word that says that the cautions are understood and the way is clear.
const clearWord = "clear"

// jogs are how far the arrow keys move the chosen axis, in mm or degrees: a
// fine step, and one to get about with.
var jogs = map[Key]float64{Left: -0.1, Right: 0.1, Down: -5, Up: 5}

// Stops tells whether a key stops the rig, whatever that is doing.
func Stops(k Key) bool { return k == Interrupt || k == Escape || k == ' ' }

// Press takes one key and returns what it asks the engine for, if anything.
// What a key means depends on what the rig is doing; that it stops never does.
func (p *Panel) Press(k Key) (drive.Request, bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	switch {
	case Stops(k):
		p.typed, p.prompt, p.asked = nil, nil, false
		p.say("stop\n")
		return drive.Request{Kind: drive.Stop}, true
	case p.asked:
		return p.answered(k)
	case p.state == drive.Cautioning:
		return p.typing(k, p.confirmed)
	case p.prompt != nil:
		return p.typing(k, p.prompt)
	case unicode.ToLower(rune(k)) == 'q':
		return drive.Request{Kind: drive.Quit}, true
	}
	switch p.state {
	case drive.Ready:
		return p.ready(k)
	case drive.Unsettled:
		return p.unsettled(k)
	case drive.Running:
		return letter(k, map[rune]drive.RequestKind{'f': drive.Finish})
	case drive.Resting:
		return letter(k, map[rune]drive.RequestKind{'r': drive.Resume, 'n': drive.Restart})
	}
	return drive.Request{}, false
}

func letter(k Key, means map[rune]drive.RequestKind) (drive.Request, bool) {
	kind, ok := means[unicode.ToLower(rune(k))]
	return drive.Request{Kind: kind}, ok
}

func (p *Panel) ready(k Key) (drive.Request, bool) {
	switch unicode.ToLower(rune(k)) {
	case 's':
		return p.markOf(Start)
	case 'e':
		return p.markOf(End)
	case 'm':
		p.choose()
		return drive.Request{}, false
	case 'f':
		p.say("frame, counted as captured from 0 (t72: frame 72 of the timeline), then Enter: ")
		p.prompt = p.frame
		return drive.Request{}, false
	case 'k':
		if p.markable() {
			p.markTake(takelog.Record{Kind: takelog.Keeper, Keep: true}, "is one to keep")
		}
		return drive.Request{}, false
	case 'x', 'c':
		p.ask(k)
		return drive.Request{}, false
	case rune(Enter), rune(LineFeed):
		return drive.Request{Kind: drive.Go}, true
	}
	if r, ok := p.jog(k); ok {
		return r, true
	}
	return letter(k, map[rune]drive.RequestKind{'g': drive.Go, 'w': drive.WalkThrough, 'h': drive.Home, 'p': drive.Here})
}

func (p *Panel) unsettled(k Key) (drive.Request, bool) {
	if r, ok := p.jog(k); ok {
		return r, true
	}
	return letter(k, map[rune]drive.RequestKind{'h': drive.Home, 'p': drive.Here, 'u': drive.Unlock})
}

// jog moves the chosen axis; Tab chooses the next.
func (p *Panel) jog(k Key) (drive.Request, bool) {
	if k == Tab && len(p.Axes) > 0 {
		p.chosen = (p.chosen + 1) % len(p.Axes)
		p.say("arrow keys move " + p.Axes[p.chosen].Name + "\n")
		return drive.Request{}, false
	}
	by, ok := jogs[k]
	if !ok || len(p.Axes) == 0 {
		return drive.Request{}, false
	}
	p.jogged[p.chosen] = true
	return drive.Request{Kind: drive.Jog, Axis: p.chosen, By: by}, true
}

// markOf asks for a mark of the axis that is chosen now. Only a place that was
// looked for is kept: a letter that slips in writes nothing into a shot.
func (p *Panel) markOf(name string) (drive.Request, bool) {
	if !p.jogged[p.chosen] {
		p.say("bring it to its place with the arrow keys first; then the key keeps it\n")
		return drive.Request{}, false
	}
	delete(p.jogged, p.chosen)
	return p.mark(name), true
}

func (p *Panel) mark(name string) drive.Request {
	return drive.Request{Kind: drive.Mark, Axis: p.chosen, Name: name + markAxis + strconv.Itoa(p.chosen)}
}

// markAxis stands between the name of a mark and the axis it is of.
const markAxis = " of "

// choose asks what the place of the chosen axis is to be marked as.
func (p *Panel) choose() {
	if p.Places == nil || len(p.Axes) == 0 {
		return
	}
	places, axis := p.Places(p.chosen), p.Axes[p.chosen].Name
	if len(places) == 0 {
		p.line("axis %s has no place to mark", axis)
		return
	}
	p.line("Mark where %s stands as", axis)
	for i, x := range places {
		p.line("  %d  %s: %s", i+1, x.Name, plain.Text(x.Words))
	}
	p.say("number or name, then Enter: ")
	p.prompt = func(word string) (drive.Request, bool) {
		if n, err := strconv.Atoi(word); err == nil && n >= 1 && n <= len(places) {
			word = places[n-1].Name
		}
		return p.mark(word), word != ""
	}
}

func (p *Panel) frame(word string) (drive.Request, bool) {
	return drive.Request{Kind: drive.Pose, Name: word}, word != ""
}

// yesMark stands for the mark of which it was asked whether to write it.
const yesMark = "yes"

// answered takes the answer to that.
func (p *Panel) answered(k Key) (drive.Request, bool) {
	p.asked = false
	if unicode.ToLower(rune(k)) == 'y' {
		return p.mark(yesMark), true
	}
	p.line("not written")
	return drive.Request{}, false
}

// typing collects a word, and does with it what it is for.
func (p *Panel) typing(k Key, done func(word string) (drive.Request, bool)) (drive.Request, bool) {
	switch {
	case k == Enter || k == LineFeed:
		word := strings.TrimSpace(string(p.typed))
		p.typed, p.prompt = nil, nil
		p.say("\n")
		return done(word)
	case k == backspace || k == Delete:
		if n := len(p.typed); n > 0 {
			p.typed = p.typed[:n-1]
			p.say("\b \b")
		}
	case k > ' ' && len(p.typed) < takelog.MaxWords:
		p.typed = append(p.typed, rune(k))
		p.say(string(rune(k)))
	}
	return drive.Request{}, false
}

// confirmed takes the word that confirms.
func (p *Panel) confirmed(word string) (drive.Request, bool) {
	if strings.EqualFold(word, clearWord) {
		return drive.Request{Kind: drive.Confirm}, true
	}
	p.say("not confirmed\n")
	return drive.Request{Kind: drive.Decline}, true
}

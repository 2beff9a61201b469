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

// Stops tells whether a key stops the rig, whatever that is doing.
func Stops(k Key) bool { return k == Interrupt || k == Escape || k == ' ' }

// Press is Stroke of a key that goes down.
func (p *Panel) Press(k Key) (drive.Request, bool) { return p.Stroke(Stroke{k, Pressed}) }

// press takes one key. What it means depends on what the rig is doing; that it stops
// never does.
func (p *Panel) press(s Stroke) (drive.Request, bool) {
	k := s.Key
	switch {
	case Stops(k):
		if p.typed != nil || p.prompt != nil || p.asked {
			p.say("\n")
		}
		p.typed, p.prompt, p.asked = nil, nil, false
		p.say("stop\n")
		return drive.Request{Kind: drive.Stop}, true
	case p.asked:
		return p.answered(k)
	case p.state == drive.Cautioning:
		return p.typing(k, p.confirmed)
	case p.unread():
		return p.reading(k)
	case p.prompt != nil:
		return p.typing(k, p.prompt)
	case unicode.ToLower(rune(k)) == 'q':
		return drive.Request{Kind: drive.Quit}, true
	}
	switch p.state {
	case drive.Ready:
		return p.ready(s)
	case drive.Unsettled:
		return p.unsettled(s)
	case drive.Running:
		return letter(k, map[rune]drive.RequestKind{'f': drive.Finish})
	case drive.Awaiting:
		return letter(k, map[rune]drive.RequestKind{'t': drive.Taken})
	case drive.Resting:
		return letter(k, map[rune]drive.RequestKind{'r': drive.Resume, 'n': drive.Restart})
	}
	return drive.Request{}, false
}

func letter(k Key, means map[rune]drive.RequestKind) (drive.Request, bool) {
	kind, ok := means[unicode.ToLower(rune(k))]
	return drive.Request{Kind: kind}, ok
}

func (p *Panel) ready(s Stroke) (drive.Request, bool) {
	k := s.Key
	if p.ByHand && strings.ContainsRune("gwfkxc\r\n", unicode.ToLower(rune(k))) {
		return drive.Request{}, false // there are no takes
	}
	switch unicode.ToLower(rune(k)) {
	case 's':
		return p.markOf(Start)
	case 'e':
		return p.markOf(End)
	case 'm':
		p.choose()
		return drive.Request{}, false
	case 'f':
		p.say("frame as captured, from 0, or as t72 of the timeline, then Enter: ")
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
	case rune(Enter), rune(LineFeed), 'g':
		return drive.Request{Kind: drive.Go}, true
	}
	if r, ok := p.jog(s); ok {
		return r, true
	}
	return letter(k, map[rune]drive.RequestKind{'w': drive.WalkThrough, 'h': drive.Home, 'p': drive.Here})
}

func (p *Panel) unsettled(s Stroke) (drive.Request, bool) {
	if r, ok := p.jog(s); ok {
		return r, true
	}
	return letter(s.Key, map[rune]drive.RequestKind{'h': drive.Home, 'p': drive.Here, 'u': drive.Unlock})
}

// markOf asks for a mark of the axis that is chosen now. Only a place that was
// looked for is kept: a letter that slips in writes nothing into a shot.
func (p *Panel) markOf(name string) (drive.Request, bool) {
	if !p.jogged[p.hand.chosen] {
		p.say("bring it to its place with the arrow keys first; then the key keeps it\n")
		return drive.Request{}, false
	}
	delete(p.jogged, p.hand.chosen)
	return p.mark(name), true
}

func (p *Panel) mark(name string) drive.Request {
	return drive.Request{Kind: drive.Mark, Axis: p.hand.chosen, Name: name + markAxis + strconv.Itoa(p.hand.chosen)}
}

// markAxis stands between the name of a mark and the axis it is of.
const markAxis = " of "

// choose asks what the place of the chosen axis is to be marked as.
func (p *Panel) choose() {
	if p.Places == nil || len(p.Axes) == 0 {
		return
	}
	places, axis := p.Places(p.hand.chosen), p.Axes[p.hand.chosen].Name
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

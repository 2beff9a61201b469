package console

import (
	"strings"

	"seamrail/export/drive"
)

// A panel that is for nothing but moving a rig by hand shows the cautions before any key
// moves it, and has no takes.

// unread tells whether the cautions are still to be read.
func (p *Panel) unread() bool {
	return p.ByHand && !p.Known && (p.state == drive.Ready || p.state == drive.Unsettled)
}

// reading collects the word that the way is clear. Until it has come nothing moves.
func (p *Panel) reading(k Key) (drive.Request, bool) {
	if k == 'q' && len(p.typed) == 0 {
		return drive.Request{Kind: drive.Quit}, true
	}
	if r, ok := p.typing(k, p.confirmed); ok && r.Kind == drive.Confirm {
		p.Known = true
		p.line("  %s", p.handHelp())
	}
	return drive.Request{}, false
}

// handHelp says what a rig that is moved by hand takes.
func (p *Panel) handHelp() string {
	text := p.handWords() + "  " + p.handKeys()
	if p.state == drive.Unsettled {
		text = "It goes slowly now, and 5 mm or degrees a press.  h homes it; p: every axis stands where " + p.Stands + "; u clears an alarm.  " + text
	} else {
		text += "h homes it.  "
	}
	return strings.TrimSpace(text + "Space stops.  q leaves")
}

// moves are the requests that move the rig outside a take, which has its own word.
var moves = map[drive.RequestKind]bool{drive.Home: true, drive.Jog: true, drive.JogHold: true, drive.Pose: true}

// cleared passes on what a key asks for. The first that moves the rig asks for the word that
// the way is clear, once in a run: what it was pressed for follows, but for what moves only
// while a key is down.
func (p *Panel) cleared(r drive.Request, ok bool) (drive.Request, bool) {
	if p.Known = p.Known || ok && r.Kind == drive.Confirm; p.Known || !ok || !moves[r.Kind] {
		return r, ok
	}
	p.hand.key, p.typed = 0, nil
	clear(p.jogged) // it has not been
	p.cautions()
	p.prompt = func(word string) (drive.Request, bool) {
		if c, _ := p.confirmed(word); c.Kind != drive.Confirm {
			return drive.Request{}, false
		}
		p.Known = true
		if r.Kind == drive.Home || r.Kind == drive.Pose {
			return r, true
		}
		p.line("Now keys move it.")
		return drive.Request{}, false
	}
	return drive.Request{}, false
}

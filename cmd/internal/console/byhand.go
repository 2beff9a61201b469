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

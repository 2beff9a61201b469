package drive

import (
	"time"

	"seamrail/export/drive/stepplayer"
	"seamrail/motion/spec/rig"
)

// LastWords are what a controller is told when nobody is left to drive it.
type LastWords struct {
	Hold   []byte        // slow down and rest; none = it has no such word, and stops when it is not fed
	Rest   time.Duration // how long that takes at most
	Forget []byte        // at rest: forget what was to come; none = it has no such word
}

// maxRest is how long a controller is waited for that slows down with nobody to see
// it: a heavy carriage at 400 mm/s and 100 mm/s2 needs four seconds.
const maxRest = 6 * time.Second

// LastWordsFor returns those for the controller of a rig. They may come in the
// middle of a line, or of a frame.
func LastWordsFor(r rig.Rig) LastWords {
	w := LastWords{Rest: min(slowest(r.Axes), maxRest)}
	c := r.Controller
	if c.Kind.PlaysSteps() {
		// A player reads a frame that was cut off to its length, finds that its
		// check is wrong and looks again from its second byte on: what it takes to
		// fill the longest comes after the hold.
		w.Hold = append(stepplayer.Frame{Type: stepplayer.Hold}.Append(nil), make([]byte, maxFrame)...)
		w.Forget = stepplayer.Frame{Type: stepplayer.Abort}.Append(nil)
		return w
	}
	if c.Hold != 0 {
		w.Hold = []byte{c.Hold}
	}
	if c.Abort != 0 {
		w.Forget = []byte{c.Abort}
	}
	return w
}

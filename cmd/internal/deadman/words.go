package deadman

import (
	"encoding/hex"
	"fmt"
	"time"
)

// Words are what a controller is told when nobody drives it any more.
type Words struct {
	Hold   []byte        // slow down and rest
	Rest   time.Duration // how long that takes at most
	Forget []byte        // at rest: forget what was to come; none = nothing is sent
}

// argument is the command by which this program is its own second process.
const argument = "hold-the-rig"

// arguments are the words for a command line.
func (w Words) arguments() []string {
	return []string{argument, hex.EncodeToString(w.Hold), w.Rest.String(), hex.EncodeToString(w.Forget)}
}

// wordsOf reads them back.
func wordsOf(args []string) (w Words, err error) {
	if len(args) != len(Words{}.arguments()) {
		return w, fmt.Errorf("%s is not a command to be given by hand", argument)
	}
	if w.Hold, err = hex.DecodeString(args[1]); err != nil {
		return w, err
	}
	if w.Rest, err = time.ParseDuration(args[2]); err != nil {
		return w, err
	}
	w.Forget, err = hex.DecodeString(args[3])
	return w, err
}

// Asked tells whether this process is to be the second one, and is it until the
// first is done. Call it before anything else.
func Asked(args []string) (code int, asked bool) {
	if len(args) == 0 || args[0] != argument {
		return 0, false
	}
	w, err := wordsOf(args)
	if err != nil {
		return misuse, true
	}
	return watch(w), true
}

// misuse is the exit code of a second process that was started by hand.
const misuse = 2

// What the first process tells the second, a byte each.
const (
	moves = 'm' // something moves from now on
	rests = 'r' // nothing moves
	beats = 'b' // it is still there
	done  = 'q' // it lets go of the rig
	ready = 'y' // what the second says once: it watches
)

const (
	// beatEvery is how often the first process shows that it is there.
	beatEvery = 200 * time.Millisecond
	// stuckAfter is how long it may not do so while something moves. The program
	// waits for no longer than that, and a computer that is too busy to let it run
	// for a second cannot stop the rig by a key either.
	stuckAfter = time.Second
)

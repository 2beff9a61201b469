package deadman

import (
	"encoding/json"
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
	words, _ := json.Marshal(w) // bytes and a duration
	return []string{argument, string(words)}
}

// Asked tells whether this process is to be the second one, and is it until the
// first is done. Call it before anything else.
func Asked(args []string) (code int, asked bool) {
	if len(args) == 0 || args[0] != argument {
		return 0, false
	}
	var w Words
	if len(args) != 2 || json.Unmarshal([]byte(args[1]), &w) != nil {
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

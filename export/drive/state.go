package drive

import "fmt"

// End is how a run, or a pass, ended.
type End int

// The ends. Finished to Quitted are as asked; the others are faults.
const (
	Finished   End = iota
	Stopped        // by the operator, at rest, position known
	Aborted        // by the operator, at once, position lost
	Quitted        // by the operator, with nothing moving
	PortLost       // the wire is gone
	Silent         // no answer in time
	Garbled        // bytes that are no answer
	Unmatched      // more or fewer answers than lines
	Refused        // an error on a line
	Alarmed        // a limit switch, or another alarm
	Restarted      // the controller greeted anew in the middle of work
	Foreign        // not the controller the rig file describes
	Mismatched     // its settings are not those of the rig file
	Overlong       // a line longer than the controller reads
	Behind         // the link or this computer is too slow: motion ran late
	Asleep         // this computer was suspended in the middle of motion
	LogFailed      // the take log could not be written
	Astray         // it ended somewhere else than planned
	Unplanned      // the program of the take could not be made
	Outcounted     // it has counted so far that it could not tell the steps of the take apart
	NotPlan        // what it did was not the plan: another time, or other places on the way
)

var endNames = [...]string{"finished", "stopped", "aborted", "quit", "port lost", "silent", "garbled", "answers do not match",
	"line refused", "alarm", "controller restarted", "wrong controller", "settings differ", "line too long", "too slow", "asleep",
	"log failed", "astray", "no program", "counted out", "not the plan"}

// String prints the end in plain words, as the take log keeps it.
func (e End) String() string { return endNames[e] }

// Fault tells whether the end is a failure, after which position is unknown.
func (e End) Fault() bool { return e > Quitted }

// Failure is a fault that ended a run. It is the error that commands exit with.
type Failure struct {
	End    End
	Detail string // what happened, in plain words
}

// Error prints the state and what happened.
func (f *Failure) Error() string { return f.End.String() + ": " + f.Detail }

func failed(e End, format string, args ...any) *Failure {
	return &Failure{End: e, Detail: fmt.Sprintf(format, args...)}
}

// State is what the engine is doing, and so what it takes from the operator.
// Stop and Quit are taken in every state.
type State int

// The states, in the order of a run.
const (
	Opening     State = iota // waits for the controller to say who it is
	Reading                  // compares the controller's settings with the rig
	Unsettled                // position unknown; takes Home, Here, Unlock, Jog
	Homing                   // looks for the limit switches
	Ready                    // position known; takes Go, Jog, Mark, Pose, WalkThrough, Home, Here
	Posing                   // goes to where a frame of the loop finds it
	Approaching              // goes to the start, gently
	Cautioning               // cautions are shown; takes Confirm, Decline
	Counting                 // counts in
	Running                  // runs the take; takes Finish
	Slowing                  // slows down; a second Stop aborts
	Draining                 // no longer fed, and moves until what it holds is done
	Resting                  // at rest within a take; takes Resume, Restart
	Awaiting                 // at rest before a frame that a hand takes; takes Taken
	Returning                // goes back to the start
	Over                     // has ended
)

// String prints the state in plain words.
func (s State) String() string {
	return [...]string{"opening", "reading settings", "position unknown", "homing", "ready", "going to a frame", "going to the start",
		"cautions", "counting in", "running", "slowing down", "moving on what it holds", "held", "waiting for the hand", "returning", "over"}[s]
}

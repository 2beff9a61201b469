package drive

// State is what the engine is doing, and so what it takes from the operator.
// Stop and Quit are taken in every state.
type State int

// The states, in the order of a run.
const (
	Opening     State = iota // waits for the controller to say who it is
	Reading                  // compares the controller's settings with the rig
	Unsettled                // position unknown; takes Home, Here, Unlock, Jog
	Homing                   // looks for the limit switches
	Ready                    // position known; takes Go, Jog, Mark, Home, Here
	Approaching              // goes to the start, gently
	Cautioning               // cautions are shown; takes Confirm, Decline
	Counting                 // counts in
	Running                  // runs the take; takes Finish
	Slowing                  // slows down; a second Stop aborts
	Draining                 // no longer fed, and moves until what it holds is done
	Resting                  // at rest within a take; takes Resume, Restart
	Returning                // goes back to the start
	Over                     // has ended
)

// String prints the state in plain words.
func (s State) String() string {
	return [...]string{"opening", "reading settings", "position unknown", "homing", "ready", "going to the start",
		"cautions", "counting in", "running", "slowing down", "moving on what it holds", "held", "returning", "over"}[s]
}

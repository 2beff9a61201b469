package page

import (
	"fmt"

	"seamrail/export/drive"
)

// runsOn says what a rig does that is told nothing any more, for the page to say when this
// program has died: ahead is how many s of motion it has been sent and not carried out, by
// the model of its lines.
func runsOn(x drive.State, virtual bool, ahead float64) string {
	switch {
	case virtual:
		return "The rig was made of software and ended with the program: nothing of metal moves."
	case x == drive.Running || x == drive.Draining:
		return fmt.Sprintf("It runs on what it holds: by the model of what it was sent, about %.1f s of motion more.", ahead)
	case x == drive.Slowing:
		return "It was slowing down, and goes on to rest."
	case x == drive.Homing:
		return "It goes on until it has found its switches."
	case x == drive.Posing || x == drive.Approaching || x == drive.Returning:
		return "It goes on to the end of the move in hand."
	}
	return "It rested when it was last heard of; what it had been told just then it still does."
}

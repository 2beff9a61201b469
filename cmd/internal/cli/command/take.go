package command

import (
	"fmt"
	"io"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/job"
	"seamrail/motion/kept"
	"seamrail/motion/plain"
)

// NoStopHelp is what --no-stop does.
const NoStopHelp = "gcode: go on from the start of the take without waiting for the operator"

// TooLong is an error for a count-in that nobody waits for.
func TooLong(sec int) error {
	if sec < 0 || sec > job.MostCountIn {
		return exit.Misused("--count-in %d must be from 0 to %d seconds", sec, job.MostCountIn)
	}
	return nil
}

// WarnLeftOut tells of takes that are kept and yet not handed on.
func WarnLeftOut(w io.Writer, takes kept.Takes) {
	for _, l := range takes.LeftOut {
		Complain(w, fmt.Errorf("take %d is kept, but left out: %s", l.Take, l.Why))
	}
	if takes.Unread > 0 {
		Complain(w, fmt.Errorf("%s of the log cannot be read; which takes are kept may have been said there: see \"seamrail takes\"", plain.Counted(takes.Unread, "line")))
	}
}

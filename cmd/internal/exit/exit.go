// Package exit says how a command ends: the kinds of error there are, and the exit
// code of each.
package exit

import (
	"errors"
	"fmt"
)

// The exit codes.
const (
	Fine   = 0 // all is well
	Limits = 1 // the plan breaks a limit or fails its check
	Usage  = 2 // a command, flag or file is not right
	Rig    = 3 // the rig or its port failed, or a take was aborted and position lost

	Stopped = 130 // told to stop, and has: by the shells' convention for Ctrl-C
)

// LimitError says that a plan exists but must not run as it is.
type LimitError struct {
	Text string
}

// Error returns the text.
func (e *LimitError) Error() string { return e.Text }

// RigError is a failure of the rig or of the port it hangs on.
type RigError struct {
	Err error
}

// Error returns the text of what it wraps.
func (e *RigError) Error() string { return e.Err.Error() }

// Unwrap returns what it wraps.
func (e *RigError) Unwrap() error { return e.Err }

// UsageError is a command line that cannot be understood; the help of the
// command would tell.
type UsageError struct {
	Err error
}

// Error returns the text of what it wraps.
func (e *UsageError) Error() string { return e.Err.Error() }

// Unwrap returns what it wraps.
func (e *UsageError) Unwrap() error { return e.Err }

// Misused is a UsageError in words.
func Misused(format string, args ...any) error { return &UsageError{fmt.Errorf(format, args...)} }

// StoppedError says that the program was told to stop, and has.
type StoppedError struct {
	Why error // what told it, where that was no one
}

// Error says so.
func (e *StoppedError) Error() string {
	if e.Why == nil {
		return "stopped"
	}
	return fmt.Sprintf("stopped: %v", e.Why)
}

// Code returns the exit code for an error of a command; nil is Fine.
// Whatever is neither the plan's nor the rig's fault is a matter of usage.
func Code(err error) int {
	var limit *LimitError
	var rig *RigError
	var stopped *StoppedError
	switch {
	case err == nil:
		return Fine
	case errors.As(err, &limit):
		return Limits
	case errors.As(err, &rig):
		return Rig
	case errors.As(err, &stopped):
		return Stopped
	}
	return Usage
}

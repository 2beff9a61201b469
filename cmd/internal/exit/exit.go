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

// Error is an error for which a command ends with a code of its own.
type Error struct {
	Code int
	Err  error
}

// Error returns the text of what it wraps.
func (e *Error) Error() string { return e.Err.Error() }

// Unwrap returns what it wraps.
func (e *Error) Unwrap() error { return e.Err }

// Limited says that a plan exists but must not run as it is.
func Limited(format string, args ...any) error { return &Error{Limits, fmt.Errorf(format, args...)} }

// Failed says that the rig failed, or the port it hangs on.
func Failed(format string, args ...any) error { return &Error{Rig, fmt.Errorf(format, args...)} }

// Misused says that a command line cannot be understood; the help of the command would
// tell.
func Misused(format string, args ...any) error { return &Error{Usage, fmt.Errorf(format, args...)} }

// Told says that the program was told to stop, and has; why, where that was by no one.
func Told(why error) error {
	if why == nil {
		return &Error{Stopped, errors.New("stopped")}
	}
	return &Error{Stopped, fmt.Errorf("stopped: %v", why)}
}

// Code returns the exit code for an error of a command; nil is Fine.
// Whatever is neither the plan's nor the rig's fault is a matter of usage.
func Code(err error) int {
	var own *Error
	switch {
	case err == nil:
		return Fine
	case errors.As(err, &own):
		return own.Code
	}
	return Usage
}

//go:build !linux

package host

import (
	"errors"
	"os"
	"time"

	"go.bug.st/serial"
)

// Listeners does nothing here: that nobody reads is seen when something is
// printed.
func Listeners([]*os.File, func(error)) (release func()) { return func() {} }

func shared(p serial.Port, _ *os.File) Port { return p }

var began = time.Now()

// asleep is by how much the time of day has run ahead of the clock that stands
// still while the computer is suspended. Setting the time of day forward looks
// the same, and stops the rig as well: that is the safe side.
func asleep() time.Duration {
	now := time.Now()
	return now.Round(0).Sub(began.Round(0)) - now.Sub(began)
}

// become is for Linux alone.
func (u Urgency) become() error {
	if u == Ordinary {
		return nil
	}
	return errors.New("that is for Linux alone")
}

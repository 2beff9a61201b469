//go:build !linux

package deadman

import (
	"errors"
	"os"
	"time"
)

// Switch is the second process, which there is on Linux alone.
type Switch struct{}

var errNone = errors.New("only Linux lets it share the port")

// Line opens a port for a second process.
func Line(string) (*os.File, error) { return nil, errNone }

// Start begins the second process.
func Start(*os.File, Words) (*Switch, error) { return nil, errNone }

// Moves tells that something moves, or that nothing does.
func (*Switch) Moves(bool) error { return nil }

// Beat tells that this program is still there.
func (*Switch) Beat(time.Time) (time.Duration, error) { return time.Hour, nil }

// Close lets the second process end.
func (*Switch) Close() error { return nil }

func watch(Words) int { return misuse }

// Package deadman holds a rig when this program cannot any more. There are two
// ways. A goroutine that panics sends the hold before the panic goes on (Go). A
// second process that shares the port sends it when the first is gone, killed or
// stuck, which no code in the first could (Switch).
//
// It is no emergency stop: both ways need the wire and the controller.
package deadman

import (
	"sync"
)

// brakes are what holds the rigs that this program drives.
var brakes struct {
	sync.Mutex
	list map[*func()]bool
}

// OnPanic has brake called before this program dies of a panic, until release.
// It may be called while anything else runs, and must not wait for long.
func OnPanic(brake func()) (release func()) {
	brakes.Lock()
	defer brakes.Unlock()
	if brakes.list == nil {
		brakes.list = map[*func()]bool{}
	}
	id := &brake
	brakes.list[id] = true
	return func() {
		brakes.Lock()
		defer brakes.Unlock()
		delete(brakes.list, id)
	}
}

// Go runs f on a goroutine of its own. Every goroutine of a program that drives
// is begun so.
func Go(f func()) { go Guard(f) }

// Guard runs f. If it panics, what moves is held before the panic goes on.
func Guard(f func()) {
	fine := false
	defer func() {
		if !fine {
			brake()
		}
	}()
	f()
	fine = true
}

// Driving tells whether this program drives anything.
func Driving() bool {
	brakes.Lock()
	defer brakes.Unlock()
	return len(brakes.list) > 0
}

// brake holds all that is driven. A second panic waits here until the first has
// ended the program.
func brake() {
	brakes.Lock()
	defer brakes.Unlock()
	for b := range brakes.list {
		(*b)()
	}
}

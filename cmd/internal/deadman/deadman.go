// Package deadman holds a rig when this program cannot any more. There are two
// ways. A goroutine that panics sends the hold before the panic goes on (Go). A
// second process that shares the port sends it when the first is gone, killed or
// stuck, which no code in the first could (Switch).
//
// It is no emergency stop: both ways need the wire and the controller.
package deadman

import (
	"fmt"
	"net/http"
	"os"
	"runtime/debug"
	"slices"
	"sync"
)

// brakes are what holds the rigs that this program drives, and what is to be left
// in order after that.
var brakes struct {
	sync.Mutex
	list []*func()
}

// OnPanic has brake called before this program dies of a panic, until release;
// those given first are called first. It may be called while anything else runs,
// and must not wait for long.
func OnPanic(brake func()) (release func()) {
	brakes.Lock()
	defer brakes.Unlock()
	brakes.list = append(brakes.list, &brake)
	return func() {
		brakes.Lock()
		defer brakes.Unlock()
		brakes.list = slices.DeleteFunc(brakes.list, func(b *func()) bool { return b == &brake })
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

// Answered is to be deferred where a panic would be taken for the fault of one
// question and the program go on, as a server of pages does. While a rig is
// driven, what moves is held and the program ends.
func Answered() {
	what := recover()
	if what == nil {
		return
	}
	if what == http.ErrAbortHandler || !driving() {
		panic(what)
	}
	brake()
	fmt.Fprintf(os.Stderr, "panic: %v\n\n%s", what, debug.Stack())
	os.Exit(died)
}

// died is the code that a program exits with that dies of a panic.
const died = 2

// driving tells whether this program drives anything.
func driving() bool {
	brakes.Lock()
	defer brakes.Unlock()
	return len(brakes.list) > 0
}

// brake holds all that is driven. A second panic waits here until the first has
// ended the program.
func brake() {
	brakes.Lock()
	defer brakes.Unlock()
	for _, b := range brakes.list {
		(*b)()
	}
}

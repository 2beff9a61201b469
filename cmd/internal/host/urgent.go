package host

import (
	"fmt"
	"runtime"
	"runtime/debug"
)

// Urgency is how far this program goes before others while something moves.
type Urgency int

// The urgencies.
const (
	Ordinary Urgency = iota
	// brief is what any program may be: one that runs for moments, and so gets its
	// turn sooner.
	brief
	// Ahead of others, who still get their turn: for a program that also plans, and
	// whose operator sits before another one.
	Ahead
	// First, before all ordinary programs: for one that sleeps nearly all of the
	// time.
	First
)

// refused says what follows where the system allows neither.
func refused(err error) string {
	return fmt.Sprintf("This system does not let seamrail go before other programs (%v): on a busy computer a stop may be late by as long as they make it wait.", err)
}

// hurry becomes as urgent as was asked for, or at least ahead. What is refused is
// told once.
func (g *guard) hurry() {
	if g.urgency == Ordinary {
		return
	}
	err := g.urgency.become()
	if err == nil || Ahead.become() == nil {
		return
	}
	_ = brief.become() // systems that do not know of it let it be
	if g.urgency != brief {
		g.urgency = brief
		g.tell(refused(err))
	}
}

// relax is as every program is.
func (g *guard) relax() {
	if g.urgency != Ordinary {
		_ = Ordinary.become()
	}
}

// untidy is how much memory may be taken up in motion before it is tidied up all the
// same: that of some minutes.
const untidy = 256 << 20

// untidied has memory not tidied up, for which all that runs would be stopped, until
// it is called off.
func untidied() (off func()) {
	var used runtime.MemStats
	runtime.ReadMemStats(&used)
	limit := debug.SetMemoryLimit(int64(used.Sys) + untidy)
	percent := debug.SetGCPercent(-1)
	return func() {
		debug.SetGCPercent(percent)
		debug.SetMemoryLimit(limit)
	}
}

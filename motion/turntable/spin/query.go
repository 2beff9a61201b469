package spin

import (
	"context"
	"fmt"
	"slices"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
)

// Query is what loops are looked for.
type Query struct {
	Clock    clock.Clock
	Captures []exact.Rat // other capture rates that the camera offers, frames a second
	From, To exact.Rat   // on-screen seconds that a loop may last, both included
	Cycles   int64       // times there and back of the carriage in a loop; 0 means 1
	Products []Product   // at least one; all must close together
	Most     int         // loops to return, the best; 0 means DefaultMost

	until context.Context // nil for ever
}

// givenUp tells whether nobody waits for the answer any more.
func (q Query) givenUp() bool { return q.until != nil && q.until.Err() != nil }

// DefaultMost is how many loops are worth reading.
const DefaultMost = 10

// maxSets bounds the combinations of stands' speeds and capture rates: beyond
// it the list says nothing to anyone.
const maxSets = 256

// maxLoops is what a search goes through in some ten seconds.
const maxLoops = 20_000_000

// maxCycles is far beyond what a carriage does in a loop.
const maxCycles = 1000

// Faults returns what is wrong with the query; Find returns no error without.
func (q Query) Faults() fault.List {
	var out fault.List
	if len(q.Products) == 0 {
		out = append(out, fault.Fault{Quantity: "stand", Bound: "is missing", Fit: "give a period, such as \"20.4 s\""})
	}
	for _, p := range q.Products {
		out = append(out, p.Faults()...)
	}
	if q.Cycles < 0 || q.Cycles > maxCycles {
		out = append(out, fault.Fault{Quantity: "cycles", Value: fmt.Sprint(q.Cycles), Bound: fmt.Sprintf("must be 1 to %d", maxCycles)})
	}
	for _, rate := range q.Captures {
		if _, err := clock.New(rate, q.Clock.Playback, exact.Rat{}); err != nil {
			out = append(out, fault.Fault{Quantity: "capture", Value: rate.String(), Bound: "is no rate a camera has", Fit: err.Error()})
		}
	}
	if n := q.sets(); n > maxSets {
		out = append(out, fault.Fault{Quantity: "the search", Value: fmt.Sprintf("over %d combinations of speeds and capture rates", n),
			Bound: fmt.Sprintf("must have at most %d", maxSets), Fit: "leave some out"})
	}
	if len(out) > 0 && q.sets() > maxSets {
		return out
	}
	return append(out, q.rangeFaults()...)
}

func (q Query) sets() int {
	n := 1 + len(q.Captures)
	for _, p := range q.Products {
		n *= max(1, len(p.Stand.Speeds))
		if n > maxSets {
			break
		}
	}
	return n
}

// rangeFaults holds the range against the clocks: at one of them it must hold a
// loop, and at none a loop that is too long.
func (q Query) rangeFaults() fault.List {
	value := q.From.Decimal(6) + " s to " + q.To.Decimal(6) + " s"
	wrong := func(bound, fit string) fault.List {
		return fault.List{{Quantity: "range", Value: value, Bound: bound, Fit: fit}}
	}
	if q.From.Sign() <= 0 || q.To.Less(q.From) {
		return wrong("is empty", "it must begin above 0 s and not end before it begins, such as \"4 s\" to \"12 s\"")
	}
	loops := int64(0)
	for _, c := range q.clocks() {
		g := grainOf(c)
		lo, hi := g.span(q.From, q.To)
		if g.per > 0 && g.limit() < hi {
			return wrong("is too long", fmt.Sprintf("it must end by %s s, loops having at most %d frames",
				g.screen(g.limit()).Decimal(3), clock.MaxFrames))
		}
		loops += max(0, hi-lo+1) * int64(len(q.combinations()))
	}
	switch {
	case loops > maxLoops:
		return wrong(fmt.Sprintf("holds %d loops at all speeds and capture rates", loops), fmt.Sprintf("it must hold at most %d", maxLoops))
	case loops > 0:
		return nil
	}
	g := grainOf(q.Clock)
	if g.per == 0 {
		return wrong("holds no loop of whole frames at this retime", "a retime of "+q.Clock.Playback.Quo(q.Clock.Capture).String()+" shows every captured frame once")
	}
	lo, _ := g.span(q.From, q.To)
	before := max(1, lo-1)
	return wrong("holds no loop of whole frames", fmt.Sprintf("the nearest last %s s and %s s",
		g.screen(before).Decimal(3), g.screen(before+1).Decimal(3)))
}

// clocks returns the query's clock and one for each other capture rate. A
// retime that shows every captured frame once goes on to do so.
func (q Query) clocks() []clock.Clock {
	out := []clock.Clock{q.Clock}
	once := q.Clock.PerScreen().Equal(exact.Int(1))
	for _, rate := range q.Captures {
		retime := q.Clock.Retime
		if once {
			retime = exact.Rat{}
		}
		c, err := clock.New(rate, q.Clock.Playback, retime)
		if err == nil && !slices.ContainsFunc(out, func(d clock.Clock) bool { return d.Capture.Equal(rate) }) {
			out = append(out, c)
		}
	}
	return out
}

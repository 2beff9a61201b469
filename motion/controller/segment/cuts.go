package segment

import (
	"cmp"
	"slices"

	"seamrail/motion/base/exact"
)

// mergeGap is how close, in seconds, two boundaries may be before they are
// one. Reversals of two axes may be that close; a block between them would be
// shorter than any controller runs, and without it the path is off by less
// than a*gap²/2, 0.00005 mm at 10000 mm/s².
var mergeGap = exact.New(1, 10_000)

// cut is a boundary between blocks; rest tells whether nothing moves from here
// to the next.
type cut struct {
	at   exact.Rat
	rest bool
}

// roundCuts returns the boundaries of a round, 0 and the period included.
func (c Cutter) roundCuts() []cut {
	period := c.T.Period()
	var inside []exact.Rat
	for i := range c.T.AxisCount() {
		for _, s := range c.T.Spans(i) {
			inside = append(inside, exact.FromFloat(s.From))
		}
	}
	cuts := merge(exact.Int(0), period, inside)
	for i := 0; i+1 < len(cuts); i++ {
		middle := cuts[i].at.Add(cuts[i+1].at).Float() / 2
		cuts[i].rest = !c.T.Moves(middle)
	}
	return cuts
}

// rampCuts returns the boundaries of a run-up or run-out that begins at from
// and lasts length; none when it lasts no time.
func (c Cutter) rampCuts(from, length exact.Rat, out bool) []cut {
	if length.Sign() == 0 {
		return nil
	}
	var inside []exact.Rat
	for i := range c.T.AxisCount() {
		r, last := c.T.Ramps(i)
		if out {
			r = last
		}
		if r == nil {
			continue
		}
		begins := from
		if !out {
			begins = from.Add(length).Sub(r.Exact())
		}
		// An axis with a shorter ramp rests for the remainder.
		inside = append(inside, begins, begins.Add(r.Exact()))
		if sec, ok := r.Turn(); ok {
			inside = append(inside, begins.Add(exact.FromFloat(sec)))
		}
	}
	return merge(from, from.Add(length), inside)
}

// merge returns from, to and the times strictly between them, in order,
// without those within mergeGap of the one before or of the end.
func merge(from, to exact.Rat, inside []exact.Rat) []cut {
	slices.SortFunc(inside, func(a, b exact.Rat) int { return cmp.Compare(a.Cmp(b), 0) })
	cuts := []cut{{at: from}}
	for _, at := range inside {
		last := cuts[len(cuts)-1].at
		if mergeGap.Less(at.Sub(last)) && mergeGap.Less(to.Sub(at)) {
			cuts = append(cuts, cut{at: at})
		}
	}
	return append(cuts, cut{at: to})
}

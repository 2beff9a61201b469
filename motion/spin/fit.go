package spin

import (
	"fmt"
	"math"

	"seamrail/motion/clock"
	"seamrail/motion/exact"
)

// Fit is one change that would make a loop close.
type Fit struct {
	Kind string // "longer", "capture", "symmetry" or "dissolve"
	Text string // "a loop of 1631 captured frames (13.605 s on screen)"
	Loop *Loop  // the loop that closes then; nil for a dissolve
}

// maxDissolve is the longest cross-dissolve that is proposed, as a share of the
// loop: beyond a quarter there is more dissolve than loop.
var maxDissolve = exact.New(1, 4)

// finestFit is the finest symmetry that is proposed: a product of two dozen
// alike faces is as many as anyone dresses.
const finestFit = 24

// fits returns what would make a loop close where none in the range does.
func (q Query) fits(a Answer) []Fit {
	var out []Fit
	if f, ok := q.longer(); ok {
		out = append(out, f)
	}
	if f, ok := q.otherRate(a); ok {
		out = append(out, f)
	}
	if f, ok := q.finer(); ok {
		out = append(out, f)
	}
	if f, ok := dissolve(a); ok {
		out = append(out, f)
	}
	return out
}

// longer looks for the first loop beyond the range that closes, over all capture
// rates and speeds.
func (q Query) longer() (Fit, bool) {
	var found *Loop
	jumps := maxJumps
	for _, c := range q.clocks() {
		for _, speeds := range q.combinations() {
			if l, ok := q.after(grainOf(c), speeds, &jumps); ok && (found == nil || l.OnScreen().Less(found.OnScreen())) {
				built := q.build(l, speeds)
				found = &built
			}
		}
	}
	if found == nil {
		return Fit{}, false
	}
	return Fit{Kind: "longer", Loop: found, Text: "a longer loop, of " + found.words()}, true
}

// maxJumps bounds the search for a loop at which several products close, over all
// rates and speeds, to a fraction of a second: each jump goes to the next loop
// that suits one of them.
const maxJumps = 20_000

// after returns the first loop past the range at which every product closes,
// unless the jumps run out before.
func (q Query) after(g grain, speeds []Speed, jumps *int) (clock.Loop, bool) {
	from := q.To.Add(g.clock.Playback.Inv()) // one frame further
	for ; *jumps > 0; *jumps-- {
		start := from
		var l clock.Loop
		for k, p := range q.Products {
			next, ok := First(g.clock, p, speeds[k], from)
			if !ok {
				return clock.Loop{}, false
			}
			l, from = next, next.OnScreen()
		}
		if start.Equal(from) || all(q.build(l, speeds).Seams, Seam.Closes) {
			return l, true
		}
	}
	return clock.Loop{}, false
}

// otherRate says at which capture rate the best loop would close exactly, for
// cameras whose rate can be trimmed.
func (q Query) otherRate(a Answer) (Fit, bool) {
	if len(a.Loops) == 0 || len(q.Products) != 1 || !q.Clock.PerScreen().Equal(exact.Int(1)) {
		return Fit{}, false
	}
	l := a.Loops[0]
	s := l.Seams[0]
	rate := exact.Int(l.Captured).Quo(exact.New(s.Match, s.Product.Symmetry).Mul(s.Speed.Period))
	return Fit{Kind: "capture", Text: fmt.Sprintf("a capture rate of %s frames a second, at which %d frames close exactly", rate.Decimal(4), l.Captured)}, true
}

// finer looks for the least symmetry above the product's own at which a loop of
// the range closes, for a query of one product.
func (q Query) finer() (Fit, bool) {
	if len(q.Products) != 1 {
		return Fit{}, false
	}
	p := q.Products[0]
	for k := p.Symmetry + 1; k <= finestFit; k++ {
		if l, ok := q.closest(k); ok {
			return Fit{Kind: "symmetry", Loop: &l, Text: fmt.Sprintf("a product of %d alike faces: %s", k, l.words())}, true
		}
	}
	return Fit{}, false
}

// closest returns the best loop for a product of another symmetry, if it closes.
func (q Query) closest(symmetry int64) (Loop, bool) {
	p := q.Products[0]
	p.Symmetry = symmetry
	q.Products = []Product{p}
	b := best{most: 1}
	for _, c := range q.clocks() {
		for _, speeds := range q.combinations() {
			q.scan(grainOf(c), speeds, func(l candidate) {
				if l.closes && b.wants(l.weight) {
					b.add(q.build(l.grain.loop(l.at), speeds))
				}
			})
		}
	}
	if len(b.loops) == 0 {
		return Loop{}, false
	}
	return b.loops[0], true
}

// dissolve proposes to spread the error of the best loop.
func dissolve(a Answer) (Fit, bool) {
	if len(a.Loops) == 0 {
		return Fit{}, false
	}
	l := a.Loops[0]
	n := int64(1)
	for _, s := range l.Seams {
		n = max(n, s.Dissolve())
	}
	if n == math.MaxInt64 || exact.Int(l.Screen).Mul(maxDissolve).Less(exact.Int(n)) {
		return Fit{}, false
	}
	return Fit{Kind: "dissolve", Text: fmt.Sprintf("a cross-dissolve of %d frames on the best of these, which spreads the jump so that no frame shifts by more than %s",
		n, l.Worst().Product.Bound())}, true
}

// words tells the length of a loop, and its capture rate and speeds.
func (l Loop) words() string {
	return fmt.Sprintf("%d captured frames at %s (%s s on screen)", l.Captured, l.Clock.Capture.Decimal(3), l.OnScreen().Decimal(3))
}

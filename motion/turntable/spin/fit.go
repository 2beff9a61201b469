package spin

import (
	"fmt"
	"math"
	"slices"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
)

// Fit is one change that would make a loop close.
type Fit struct {
	Kind string // "longer", "rate", "trim", "symmetry" or "dissolve"
	Text string // "a loop of 1631 captured frames (13.605 s on screen)"
	Loop *Loop  // the loop that closes then; nil for a trimmed rate and a dissolve
}

// Offer is the change in words, with whether a loop stands for it that can be planned,
// or whether it is only worked out.
func (f Fit) Offer() string {
	if f.Loop == nil {
		return "worked out, not planned: " + f.Text
	}
	return "would close: " + f.Text
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
	if f, ok := q.usualRate(); ok {
		out = append(out, f)
	}
	if f, ok := q.trim(a); ok {
		out = append(out, f)
	}
	if f, ok := q.finer(a); ok {
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
	for ; *jumps > 0 && !q.givenUp(); *jumps-- {
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

// usualRates are what cameras offer, in frames a second: the rates of SMPTE
// ST 12-1 and the multiples of them that slow motion is made with (common
// practice).
var usualRates = []exact.Rat{
	exact.New(24000, 1001), exact.Int(24), exact.Int(25), exact.New(30000, 1001), exact.Int(30),
	exact.New(48000, 1001), exact.Int(48), exact.Int(50), exact.New(60000, 1001), exact.Int(60),
	exact.Int(100), exact.New(120000, 1001), exact.Int(120), exact.Int(150), exact.Int(180), exact.Int(200), exact.Int(240),
}

// UsualRates returns the capture rates that cameras offer, the slowest first.
func UsualRates() []exact.Rat { return slices.Clone(usualRates) }

// usualRate looks for the best loop of the range that closes at a capture rate
// that cameras have and that was not asked about. A camera slower than a tenth of
// the clock's, or ten times as fast, would be another shot.
func (q Query) usualRate() (Fit, bool) {
	asked := q.clocks()
	q.Captures = nil
	for _, rate := range usualRates {
		ratio := rate.Quo(q.Clock.Capture)
		known := slices.ContainsFunc(asked, func(c clock.Clock) bool { return c.Capture.Equal(rate) })
		if !known && exact.New(1, 10).Less(ratio) && ratio.Less(exact.Int(10)) {
			q.Captures = append(q.Captures, rate)
		}
	}
	if len(q.Faults()) > 0 {
		return Fit{}, false // too many, or a range that one of them makes too long
	}
	l, ok := q.bestClosing(q.clocks()[1:])
	if !ok {
		return Fit{}, false
	}
	return Fit{Kind: "rate", Loop: &l, Text: "another capture rate, if the camera has it: " + l.words()}, true
}

// maxTrim is how far a rate is trimmed, as a share of itself: further off it is
// another rate, and the picture another slow motion.
var maxTrim = exact.New(1, 10)

// trim says at which capture rate the best loop would close exactly, for cameras
// whose rate can be trimmed.
func (q Query) trim(a Answer) (Fit, bool) {
	if len(a.Loops) == 0 || len(q.Products) != 1 || !q.Clock.PerScreen().Equal(exact.Int(1)) {
		return Fit{}, false
	}
	l := a.Loops[0]
	s := l.Seams[0]
	rate := exact.Int(l.Captured).Quo(exact.New(s.Match, s.Product.Symmetry).Mul(s.Speed.Period))
	if off := rate.Quo(l.Clock.Capture).Sub(exact.Int(1)).Abs(); maxTrim.Less(off) {
		return Fit{}, false
	}
	return Fit{Kind: "trim", Text: fmt.Sprintf("a capture rate of %s frames a second, if the camera's can be trimmed, at which %d frames close exactly", rate.Decimal(4), l.Captured)}, true
}

// finer looks for the least symmetry above the product's own at which a loop of
// the range closes, for a query of one product.
func (q Query) finer(a Answer) (Fit, bool) {
	if len(q.Products) != 1 || a.Considered*finestFit > maxLoops {
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
	return q.bestClosing(q.clocks())
}

// bestClosing returns the best of the loops that close.
func (q Query) bestClosing(clocks []clock.Clock) (Loop, bool) {
	b := best{most: 1}
	for _, c := range clocks {
		g := grainOf(c)
		for _, speeds := range q.combinations() {
			q.scan(g, speeds, func(l candidate) {
				if l.closes && b.wants(l) {
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

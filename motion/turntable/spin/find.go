package spin

import (
	"cmp"
	"context"
	"math/big"
	"slices"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
)

// Loop is a loop with how it closes.
type Loop struct {
	clock.Loop
	Seams []Seam    // one for each product of the query, in its order
	Cycle exact.Rat // captured frames of one cycle of the carriage
	// Alike is how many rounds that look the same the loop holds: cycles and
	// faces turned have that divisor in common. A shorter loop would do as well
	// where it is above 1.
	Alike  int64
	weight exact.Rat
}

// Closes tells whether every product closes within its bound.
func (l Loop) Closes() bool { return all(l.Seams, Seam.Closes) }

// Sure tells whether it does even when the periods are off by Coverage standard
// uncertainties.
func (l Loop) Sure() bool { return all(l.Seams, Seam.Sure) }

// Certain tells whether it is sure and no drift of a stand's speed opens it.
func (l Loop) Certain() bool { return all(l.Seams, Seam.Certain) }

func all(seams []Seam, holds func(Seam) bool) bool {
	return !slices.ContainsFunc(seams, func(s Seam) bool { return !holds(s) })
}

// Worst returns the seam that is furthest off, as a share of its bound.
func (l Loop) Worst() Seam {
	return slices.MaxFunc(l.Seams, func(a, b Seam) int { return a.weight().Cmp(b.weight()) })
}

// Furthest returns the seam that is furthest off whatever its uncertainty, as a
// share of its bound.
func (l Loop) Furthest() Seam {
	return slices.MaxFunc(l.Seams, func(a, b Seam) int {
		return a.Error.Abs().Quo(a.Bound).Cmp(b.Error.Abs().Quo(b.Bound))
	})
}

// Answer is what a search found.
type Answer struct {
	Loops      []Loop // the best, best first; such as do not close follow where few do
	Closing    int64  // loops of the whole range that close
	Considered int64  // loops of the whole range, at every capture rate and speed
	Fits       []Fit  // what would close, where none does
}

// Find goes through every loop of the range, at every capture rate and every
// combination of the stands' speeds, and returns the best of those that close and
// of those that are nearer to a match than the loops next to them; where there is
// no such loop, those next best. Loops are ranked by the mean square of the
// closing error to be expected, which is the error squared plus its uncertainty
// squared, in shares of the bound, of the product that is worst; then the shorter
// one, then capture rates and speeds in the order of the query. The order is
// exact. It returns the query's faults, if any.
func Find(q Query) (Answer, error) { return FindUntil(context.Background(), q) }

// FindUntil is Find until ctx ends, whose error it then returns.
func FindUntil(ctx context.Context, q Query) (Answer, error) {
	q.until = ctx
	if err := q.Faults().Err(); err != nil {
		return Answer{}, err
	}
	if q.Cycles == 0 {
		q.Cycles = 1
	}
	if q.Most <= 0 {
		q.Most = DefaultMost
	}
	out := q.search()
	if out.Closing == 0 {
		out.Fits = q.fits(out)
	}
	if q.givenUp() {
		return Answer{}, ctx.Err()
	}
	return out, nil
}

// search is Find without a word on what would close.
func (q Query) search() Answer {
	var out Answer
	matches, rest := best{most: q.Most}, best{most: min(q.Most, spare)}
	for _, c := range q.clocks() {
		for _, speeds := range q.combinations() {
			q.scan(grainOf(c), speeds, func(l candidate) {
				out.Considered++
				if l.closes {
					out.Closing++
				}
				b := &rest
				if l.closes || l.nearest() {
					b = &matches
				}
				if b.wants(l) {
					b.add(q.build(l.grain.loop(l.at), speeds))
				}
			})
		}
	}
	out.Loops = matches.loops
	if len(out.Loops) == 0 {
		out.Loops = rest.loops
	}
	return out
}

// spare is how many loops are told of where none is near a match.
const spare = 2

// combinations returns each way to give every stand one of its speeds.
func (q Query) combinations() [][]Speed {
	out := [][]Speed{nil}
	for _, p := range q.Products {
		var next [][]Speed
		for _, head := range out {
			for _, v := range p.Stand.Speeds {
				next = append(next, append(slices.Clone(head), v))
			}
		}
		out = next
	}
	return out
}

func (q Query) build(l clock.Loop, speeds []Speed) Loop {
	out := Loop{Loop: l, Cycle: exact.New(l.Captured, max(1, q.Cycles)), Alike: max(1, q.Cycles)}
	for k, p := range q.Products {
		s := p.Seam(l, speeds[k])
		out.Seams = append(out.Seams, s)
		out.Alike = divisor(out.Alike, s.Match)
		if w := s.weight(); out.weight.Less(w) {
			out.weight = w
		}
	}
	return out
}

func divisor(a, b int64) int64 {
	return new(big.Int).GCD(nil, nil, big.NewInt(a), big.NewInt(b)).Int64()
}

// best keeps the loops of least weight.
type best struct {
	most         int
	loops        []Loop
	worst, after float64 // weight and on-screen seconds of the last of them
}

// slack is how far the sifting by floats may be wrong: a dozen roundings of
// 1e-16 each, with room. What passes is compared exactly.
const slack = 1e-12

// wants tells whether a candidate may be among the best. One that closes exactly
// does not displace shorter ones that do: there may be millions.
func (b *best) wants(c candidate) bool {
	switch {
	case len(b.loops) < b.most:
		return true
	case c.weight == 0 && b.worst == 0:
		return c.grain.seconds(c.at) <= b.after*(1+slack)
	}
	return c.weight <= b.worst*(1+slack)
}

func (b *best) add(l Loop) {
	at, _ := slices.BinarySearchFunc(b.loops, l, func(have, l Loop) int {
		if order := cmp.Or(have.weight.Cmp(l.weight), have.OnScreen().Cmp(l.OnScreen())); order != 0 {
			return order
		}
		return -1 // what came first stays first
	})
	b.loops = slices.Insert(b.loops, at, l)
	b.loops = b.loops[:min(len(b.loops), b.most)]
	last := b.loops[len(b.loops)-1]
	b.worst, b.after = last.weight.Float(), last.OnScreen().Float()
}

// LoopOf returns how a loop that is there already closes, with one speed for
// each product of the query.
func LoopOf(q Query, l clock.Loop, speeds []Speed) Loop { return q.build(l, speeds) }

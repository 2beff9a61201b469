package segment

import (
	"math"
	"slices"

	"seamrail/motion/exact"
	"seamrail/motion/lookahead"
	"seamrail/motion/rig"
	"seamrail/motion/trajectory"
)

// Fitted cuts a trajectory for the controller of its rig, as Choose does.
type Fitted struct{}

// Cut returns the take that Choose chooses.
func (Fitted) Cut(t *trajectory.Trajectory) (Take, error) {
	c, err := Choose(t, int64(t.Plan().Rounds))
	return c.Take, err
}

// shares are the block durations that are tried, as shares of the one at which
// straight blocks stray as far as they may, or of a slice, the likeliest first.
// Shorter ones use up the look-ahead, longer ones are for shallow rings and slow links.
var shares = [...]float64{1, 0.87, 0.7, 1.5, 0.5, 2, 0.35, 3, 0.25, 4.5, 7}

const (
	// blockStray is how far, in mm or degrees, a straight block may stray from
	// the path: well within what is wanted.
	blockStray = 0.016
	// slice is for how long, in s, controllers hold one step rate: 10 ms is
	// usual, and of shorter blocks some slices make two. The model knows no
	// slices; what does is up to 6 ms a round late on blocks of 9 ms.
	slice = 0.010
	// shortest and longest are bounds of block durations, s: lines faster than
	// the first are beyond small controllers; a block longer than the last
	// feels like none at all when the rig is to be stopped.
	shortest = 0.004
	longest  = 0.5
	// mostLines and usualLines of a round keep the search short: a round of
	// hours has longer blocks.
	mostLines  = 20_000
	usualLines = 4000
)

// usual is the block duration at which the path strays by blockStray: a*dt²/8.
func usual(t *trajectory.Trajectory) float64 {
	acc := 0.0
	for i := range t.AxisCount() {
		acc = max(acc, math.Abs(t.Plan().Axes[i].Extremes.Acc.Value))
	}
	return math.Sqrt(8 * blockStray / acc) // +Inf at constant speed
}

// ladder returns the block durations to try.
func ladder(t *trajectory.Trajectory) []exact.Rat {
	const grain = 1000 // ms
	period := t.Period().Float()
	least, most := max(shortest, period/mostLines), max(longest, period/usualLines)
	first := max(usual(t), slice)
	var out []exact.Rat
	for _, share := range shares {
		sec := min(max(first*share, least), most)
		ms := exact.New(int64(math.Round(sec*grain)), grain)
		if !slices.ContainsFunc(out, ms.Equal) {
			out = append(out, ms)
		}
	}
	return out
}

// Choose cuts the trajectory into the blocks that its rig's controller runs
// most nearly on time and on the path, by a model of the controller, and says
// what the model expects of a take of so many rounds. It tries block durations
// and ramp shapes until one is well within what is wanted, else takes the best.
// The error says what keeps the trajectory from being cut at all; what the
// controller cannot follow is in Expected.Faults.
func Choose(t *trajectory.Trajectory, rounds int64) (Chosen, error) {
	if t.Rig().Controller.Kind == rig.StepPlayer {
		k, err := EqualTime{}.Cut(t)
		return Chosen{k, exactly(t, rounds)}, err
	}
	s := &search{m: newMachine(t), rounds: max(rounds, 1), ideal: idealOf(t), ladder: ladder(t)}
	for _, sec := range s.ladder {
		if s.try(sec, false) || s.ramps() && s.try(sec, true) {
			break
		}
	}
	if !s.found {
		_, err := EqualTime{Seconds: s.ladder[0]}.Cut(t)
		return Chosen{}, err
	}
	if !s.best.Follows() {
		s.best.Faults = s.doubts()
	}
	s.best.RestsLate = float64(rests(s.take.Round)) * s.m.planner.Link.Reply
	return Chosen{s.take, s.best}, nil
}

// rests counts the blocks in which nothing moves.
func rests(round []Block) int {
	n := 0
	for _, b := range round {
		if b.Rest {
			n++
		}
	}
	return n
}

// search keeps the best take so far.
type search struct {
	m      *machine
	rounds int64
	ideal  *ideal
	ladder []exact.Rat
	work   int // blocks that have been modelled
	found  bool
	even   bool // of the best
	take   Take
	best   Prediction
}

func (s *search) ramps() bool { return !s.m.t.Plan().AtRest() }

// enough is the share of what is wanted at which the search ends.
const enough = 0.9

// most blocks that are modelled for one take, and again to say why none is
// good: some tenths of a second.
const mostWork = 20_000

// try cuts into blocks of at most so long and keeps the take if it is the best
// so far. It tells whether to look no further.
func (s *search) try(longest exact.Rat, even bool) bool {
	if n := s.m.t.Period().Quo(longest); exact.Int(maxBlocks).Less(n) {
		return false
	}
	k, p := s.fit(s.m, longest, even)
	if !s.found || p.score() < s.best.score() {
		s.found, s.even, s.take, s.best = true, even, k, p
	}
	return s.best.score() < enough || s.work > mostWork
}

// fit cuts into blocks of at most so long and foretells what m makes of them.
func (s *search) fit(m *machine, longest exact.Rat, even bool) (Take, Prediction) {
	k := m.cut(longest, even)
	p, work := m.fit(&k, s.rounds, s.ideal)
	p.Longest = longest.Float()
	s.work += work
	return k, p
}

// cut returns blocks of at most so long, on whole steps where that is free.
func (m *machine) cut(longest exact.Rat, even bool) Take {
	c := cutter{t: m.t, longest: longest, even: even}
	k := c.take()
	up := total(k.RunUp)
	period := m.t.Period()
	ramped := func(i int, sec float64) (pos, vel float64) {
		const h = 1e-6 // s; small beside a block, great beside rounding
		pos = c.ramped(i, sec)
		return pos, (c.ramped(i, sec+h) - c.ramped(i, sec-h)) / (2 * h)
	}
	rounded := func(i int, sec float64) (pos, vel float64) {
		s := m.t.State(i, sec)
		return s.Pos, s.Vel
	}
	start := k.Rest
	if n := len(k.RunUp); n > 0 {
		start = k.RunUp[n-1].End
	}
	k.RunUp = m.lead(k.RunUp)
	m.onSteps(k.RunUp, k.Rest, up.Neg(), ramped)
	m.onSteps(k.Round, start, exact.Rat{}, rounded)
	end := k.Round[len(k.Round)-1].End
	m.onSteps(k.RunOut, end, period, ramped)
	k.RunUp, k.Round, k.RunOut = m.joined(k.RunUp, k.Rest), m.joined(k.Round, start), m.joined(k.RunOut, end)
	return k
}

// most rounds that are modelled: the first, whose beginning differs, and two
// that follow on rounds like themselves.
const modelled = 3

// fitTurns is how often what the model is late is taken off the times that are
// aimed at. Twice leaves less than a tenth of a per cent of it.
const fitTurns = 3

// lateGrain is how late, in s, a round may be to be left alone, and lateShare
// what share of what is wanted all rounds may add up to.
const (
	lateGrain = 20e-6
	lateShare = 0.3
)

// fit finds the nominal times of the take's blocks and foretells what becomes
// of them, and how many blocks that took.
func (m *machine) fit(k *Take, rounds int64, x *ideal) (Prediction, int) {
	n := int(min(rounds, modelled))
	if n > 2 && len(k.Round) > manyBlocks {
		n = 2
	}
	scale, ramp := 1/(1+m.c.RateError), 1/(1+m.c.RateError) // of a round, of the run-up
	up := total(k.RunUp).Float()
	grain := min(lateGrain, lateShare*wantedLate/float64(rounds))
	var p Prediction
	work := 0
	for range fitTurns {
		m.solve(k, scale, ramp)
		s := m.script(*k, n)
		work += len(s.moves)
		p = m.predict(s, rounds, x)
		share := p.RoundLate / p.RoundPlanned
		if max(math.Abs(share), math.Abs(p.begun)) > hopeless ||
			math.Abs(p.RoundLate) < grain && math.Abs(p.begun) < lateGrain {
			break
		}
		if !k.dwellLess(p.RoundLate) {
			scale *= 1 - share
		}
		if up > 0 {
			ramp *= 1 - p.begun/up
		}
	}
	return p, work
}

// leastDwell is the share of a dwell that is kept whatever is made up for in it.
const leastDwell = 0.5

// dwellLess takes seconds off the dwells of a round, each the same, where nothing
// is out of its place for them. It tells whether they last so long.
func (k *Take) dwellLess(sec float64) bool {
	var rests []*Block
	for i := range k.Round {
		if b := &k.Round[i]; b.Rest {
			rests = append(rests, b)
		}
	}
	each := sec / float64(max(len(rests), 1))
	short := func(b *Block) bool { return b.Nominal.Float()-each < leastDwell*b.Seconds.Float() }
	if len(rests) == 0 || len(rests) == len(k.Round) || slices.ContainsFunc(rests, short) {
		return false // nothing rests, or nothing moves
	}
	for _, b := range rests {
		b.Nominal = exact.FromFloat(b.Nominal.Float() - each)
	}
	return true
}

// manyBlocks in a round let two rounds stand for all.
const manyBlocks = 2000

// hopeless is the share of a round by which it is late where times are not what
// is wrong.
const hopeless = 0.05

// solve sets the nominal times of all blocks, so that the planner runs each in
// its time by scale.
func (m *machine) solve(k *Take, scale, ramp float64) {
	s := m.script(*k, 2)
	shapes := m.planner.Shapes(s.moves)
	up, first, second, out := s.rounds[0], s.rounds[0], s.rounds[1], s.rounds[2]
	ring := s.chain(shapes, first, second, scale)
	ring.ring = true
	// The first follows on the last, as in the second round.
	if len(ring.links) > 0 && second < len(shapes) {
		ring.links[0].enter = shapes[second].Enter
	}
	ring.solve()
	s.pay(ring, first)
	if up > 0 {
		c := s.chain(shapes, 0, up, ramp)
		c.after, c.leave = ring.links[0].reach(), shapes[first].Enter
		c.solve()
		s.pay(c, 0)
	}
	if out < len(shapes) {
		c := s.chain(shapes, out, len(shapes), scale)
		c.before = ring.links[len(ring.links)-1].reach()
		c.solve()
		s.pay(c, out)
	}
}

// chain returns the moves from one to the other as a chain.
func (s *script) chain(shapes []lookahead.Shape, from, to int, scale float64) *chain {
	c := &chain{links: make([]link, to-from)}
	for i := range c.links {
		x := &shapes[from+i]
		c.links[i] = link{length: x.Length, acc: x.Acc, enter: x.Enter, cap: x.Cap, target: s.targets[from+i] * scale}
	}
	return c
}

// pay gives each block the nominal time that was found for it.
func (s *script) pay(c *chain, from int) {
	for i := range c.links {
		l := &c.links[i]
		if b := s.blocks[from+i]; b != nil && l.length > 0 {
			b.Nominal = exact.FromFloat(l.length / l.speed * s.stretch[from+i])
		}
	}
}

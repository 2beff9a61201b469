// Package ontime cuts the motion of a take into the blocks that the controller
// of its rig runs on time, and says what comes of them.
//
// Blocks are guessed by a quick model, the trapezoid of speed of each between
// its slower neighbours, run on package firmware as the very lines that will be
// sent, and corrected by what came of them. What is told of a take was found by
// running its lines.
package ontime

import (
	"context"
	"errors"
	"math"
	"slices"

	"seamrail/motion/base/exact"
	"seamrail/motion/controller/program"
	"seamrail/motion/controller/segment"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
)

// Chosen is a take that has been cut, with what is expected of it.
type Chosen struct {
	Take     segment.Take
	Expected Prediction
}

// Cut returns the take.
func (c Chosen) Cut(*trajectory.Trajectory) (segment.Take, error) { return c.Take, nil }

// shares are the block durations that are tried, as shares of the one at which
// straight blocks stray as far as they may, or of a slice, the likeliest first.
// Shorter ones use up the look-ahead, longer ones are for shallow rings and slow links.
var shares = [...]float64{1, 0.87, 1.2, 0.7, 1.5, 0.5, 2, 0.35, 3, 0.25, 4.5, 7}

const (
	// blockStray is how far, in mm or degrees, a straight block may stray from
	// the path: well within what is promised.
	blockStray = 0.016
	// slice is for how long, in s, controllers hold one step rate: 10 ms is
	// usual, and shorter blocks make slices of their own that are less even.
	slice = 0.010
	// shortest and longest are bounds of block durations, s: lines faster than
	// the first are beyond small controllers; a block longer than the last
	// feels like none at all when the rig is to be stopped.
	shortest = 0.004
	longest  = 0.5
	// maxLines and usualLines of a round keep the search short: a round of
	// hours has longer blocks.
	maxLines   = 20_000
	usualLines = 4000
)

// usual is the block duration at which the path strays by blockStray: a*dt²/8.
// A run-up or run-out is part of the path.
func usual(t *trajectory.Trajectory) float64 {
	acc := 0.0
	for i := range t.AxisCount() {
		acc = max(acc, math.Abs(t.Extremes(i).Acc.Value))
		up, out := t.Ramps(i)
		for _, r := range []*plan.Ramp{up, out} {
			if r != nil {
				acc = max(acc, math.Abs(r.Peak()))
			}
		}
	}
	return math.Sqrt(8 * blockStray / acc) // +Inf where nothing speeds up
}

// lineShare is how much longer a block must last than its line takes on the way,
// so that the ring fills and stays full.
const lineShare = 1.1

// lineTime is the least a block may last for its line to be there in time, s.
func (m *machine) lineTime() float64 {
	sec := max(m.wireTime(), m.board.Line.Seconds())
	if m.link.Single {
		sec += m.link.Reply.Seconds()
	}
	return lineShare * sec
}

// wireTime is about how long a line is on the wire, s.
func (m *machine) wireTime() float64 {
	const beside, axis, bits = 14, 9, 10 // characters of a line, of each axis, and bits of one
	if m.link.Baud == 0 {
		return 0
	}
	return float64((beside+axis*len(m.axes))*bits) / float64(m.link.Baud)
}

// ladder returns the block durations to try.
func (m *machine) ladder() []exact.Rat {
	const grain = 1000 // ms
	t := m.t
	period := t.Period().Float()
	least, most := max(shortest, period/maxLines, m.lineTime()), max(longest, period/usualLines)
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
// most nearly on time and on the path, and says what comes of a take of so many
// rounds. It tries block durations, ramp shapes and rests until one is well
// within what is promised, else takes the best. The error says what keeps the
// trajectory from being cut at all; what the controller cannot follow is in
// Expected.Faults, with what would fit.
func Choose(t *trajectory.Trajectory, rounds int64) (Chosen, error) {
	return ChooseOpened(t, rounds, program.Opening{})
}

// ChooseOpened is Choose for a program that opens in its own way: a timer goes on
// counting through its pause, and where it then stands decides when the first
// motion begins, to less than a millisecond.
func ChooseOpened(t *trajectory.Trajectory, rounds int64, opening program.Opening) (Chosen, error) {
	return ChooseUntil(context.Background(), t, rounds, opening)
}

// ChooseUntil is ChooseOpened until ctx ends, whose error it then returns: all that is
// found is found by running lines, and no more are run.
func ChooseUntil(ctx context.Context, t *trajectory.Trajectory, rounds int64, opening program.Opening) (Chosen, error) {
	c, err := chosen(ctx, t, rounds, opening)
	if ctx.Err() != nil {
		return Chosen{}, ctx.Err()
	}
	return c, err
}

func chosen(ctx context.Context, t *trajectory.Trajectory, rounds int64, opening program.Opening) (Chosen, error) {
	s, c, err := choose(ctx, t, rounds, opening, false)
	if err != nil || c.Expected.Follows() {
		return c, err
	}
	// What is made better for long may fail where what is just good enough does not.
	if c.Expected.uncountable() || c.Expected.doubt() > 1 {
		c.Expected.Faults = s.diagnose()
		return c, nil
	}
	if _, plain, err := choose(ctx, t, rounds, opening, true); err == nil && plain.Expected.Follows() {
		return plain, nil
	}
	c.Expected.Faults = s.diagnose()
	return c, nil
}

// Try is Choose for those who only want to know whether the controller follows: it
// neither looks for why it cannot nor makes a take that does any better.
func Try(t *trajectory.Trajectory, rounds int64) (Chosen, error) {
	return TryUntil(context.Background(), t, rounds)
}

// TryUntil is Try until ctx ends; what it then returns is nothing.
func TryUntil(ctx context.Context, t *trajectory.Trajectory, rounds int64) (Chosen, error) {
	_, c, err := choose(ctx, t, rounds, program.Opening{}, true)
	return c, err
}

func choose(ctx context.Context, t *trajectory.Trajectory, rounds int64, opening program.Opening, brief bool) (*search, Chosen, error) {
	if t.Rig().Controller.Kind.PlaysSteps() {
		k, err := segment.EqualTime{}.Cut(t)
		return nil, Chosen{k, exactly(t, rounds)}, err
	}
	m := newMachine(t)
	m.opening, m.until = opening, ctx
	most, _ := m.countable()
	if most == 0 {
		most = rounds
	}
	s := &search{m: m, rounds: max(min(rounds, most), 1), ideal: idealOf(t), ladder: m.ladder(), most: maxWork, brief: brief}
	if !s.whole() {
		_, err := segment.EqualTime{Seconds: s.ladder[0]}.Cut(t)
		if err == nil {
			err = s.err
		}
		return s, Chosen{}, err
	}
	s.reaches = s.best.Follows()
	s.best = s.best.over(max(rounds, 1))
	s.best.Assumed = s.assumptions()
	return s, Chosen{s.take, s.best}, nil
}

// wholes is how many takes are run from their first round to their last, and held
// against what is not known.
const wholes = 4

// whole looks for a take that keeps what is promised through all its rounds, else
// for the best. It tells whether any could be cut.
func (s *search) whole() bool {
	var best Prediction
	var kept fitting
	some := false
	for range wholes {
		if !s.all() {
			break
		}
		s.finish()
		if !s.brief {
			s.steady()
		}
		s.best = s.sturdy(&s.fitting, s.best, int(s.best.Ran))
		s.last()
		if !some || s.best.score() < best.score() {
			some, best, kept = true, s.best, s.fitting.copy()
		}
		if best.Follows() {
			break
		}
	}
	s.best, s.fitting = best, kept
	s.best.Countable, _ = s.m.countable()
	return some
}

// search keeps the best take so far.
type search struct {
	m      *machine
	rounds int64
	ideal  *ideal
	ladder []exact.Rat
	work   int  // lines that have been run
	most   int  // that may be, for each part of the search
	brief  bool // a take that follows is good enough
	// reaches tells that as many rounds follow as the controller can count.
	reaches bool
	step    int // of the ladder that is tried next
	turn    int // of the ways to cut by it
	found   bool
	err     error
	fitting
	best Prediction
}

// way is one way to cut a take.
type way struct {
	longest exact.Rat // s of a block
	even    bool      // ramps of constant acceleration
	quiet   bool      // very slow ends of moves are stood through
	long    bool      // rests are stood out in one grain more, not one less
	tread   bool      // what is too slow for the board is gone in steps and stands
}

// ways lists the ways to cut into blocks of at most so long.
func (s *search) ways(longest exact.Rat) []way {
	slow := s.m.crawls()
	if slow > crawling {
		return s.ramped([]way{{longest: longest, tread: true}})
	}
	out := []way{{longest: longest}}
	if s.m.grained() && s.m.rests() {
		out = append(out, way{longest: longest, long: true})
	}
	if s.m.creeps() {
		out = append(out, way{longest: longest, quiet: true}, way{longest: longest, quiet: true, long: true})
	}
	if slow > gentle {
		out = append(out, way{longest: longest, tread: true})
	}
	return s.ramped(out)
}

// ramped is the ways with both shapes of ramps, where there are any.
func (s *search) ramped(ways []way) []way {
	if !s.m.ramps() {
		return ways
	}
	for _, w := range slices.Clone(ways) {
		w.even = true
		ways = append(ways, w)
	}
	return ways
}

// all tries the ways that have not been tried, until one is well within what is
// promised. It tells whether any could be cut.
func (s *search) all() bool {
	s.found, s.work = false, 0
	for ; s.step < len(s.ladder); s.step, s.turn = s.step+1, 0 {
		sec := s.ladder[s.step]
		if n := s.m.t.Period().Quo(sec); exact.Int(segment.MaxBlocks).Less(n) {
			continue
		}
		for ways := s.ways(sec); s.turn < len(ways); {
			s.turn++
			if s.try(ways[s.turn-1]) {
				return true
			}
		}
	}
	return s.found
}

const (
	// enough is the share of what is promised at which the search ends.
	enough = 0.9
	// maxWork bounds the lines that are run to choose the blocks of a take: some
	// hundredths of a second.
	maxWork = 30_000
)

// try keeps the take that is cut so if it is the best so far, and tells whether
// to look no further.
func (s *search) try(w way) bool {
	f, p, err := s.fit(s.m, w)
	if err != nil {
		s.err = err
		return false
	}
	if p.score() < enough {
		p = s.sturdy(&f, p, f.few())
	}
	if !s.found || p.score() < s.best.score() {
		s.found, s.fitting, s.best = true, f, p
	}
	return s.best.score() < enough || s.work > s.most
}

var errNoRoom = errors.New("the moves beside a rest are too short for it")

// fit cuts one way and foretells what m makes of it.
func (s *search) fit(m *machine, w way) (fitting, Prediction, error) {
	return s.fitIn(fitTurns, m, w)
}

// fitIn is fit in so many turns.
func (s *search) fitIn(turns int, m *machine, w way) (fitting, Prediction, error) {
	k, ok := m.cut(w)
	if !ok || w.quiet && restsIn(k.Round) == restsIn(s.take.Round) && s.found {
		return fitting{}, Prediction{}, errNoRoom
	}
	f := fitting{turns: turns, m: m, way: w, take: k, scale: 1}
	p, err := f.fit(s.ideal, &s.work)
	p.Longest = w.longest.Float()
	return f, p, err
}

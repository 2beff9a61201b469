package ontime

import "math"

const (
	// settled is how many rounds show what each later one is like: the first few
	// follow on what was before the take.
	settled = 8
	// trims is how many slightly other paces are tried, so that many rounds add
	// up to less than what is promised: each slice of a move lasts whole ticks, so
	// that the length of a round changes by fits and starts.
	trims = 64
	// well is the share of what is promised at which a take is left as it is.
	well = 0.1
	// maxRun bounds the lines of a take that is run from its first round to its
	// last while it is looked for; of longer ones the first rounds are.
	maxRun = 40_000
	// maxWhole bounds the lines of a take that is run to its last round once it has
	// been found: some seconds. Of longer ones the first rounds stand for the
	// others.
	maxWhole = 2_000_000
	// trimShare is how many times as many lines may be run to trim a take as to
	// choose its blocks.
	trimShare = 8
	// finals is how often a take is run as a whole, and trimmed by what came of it.
	finals = 8
	// wellAll is the share of what is promised that a whole take may be late by.
	wellAll = 0.3
)

// trimWork is how many lines may be run to trim the take: what each of many rounds is
// late by has to be the finer.
func (s *search) trimWork() int {
	const few, most = 200, 4 // rounds, and times as many lines
	return trimShare * s.most * int(min(max(s.rounds/few, 1), most))
}

// finish trims the pace, and runs the whole take.
func (s *search) finish() {
	most := int64(max(s.few(), maxRun/max(1, s.best.Blocks)))
	all := int(min(s.rounds, most))
	some := min(all, settled)
	run := func(f *fitting, rounds int) (Prediction, bool) {
		w, err := f.m.run(f.take, rounds, s.ideal)
		if err != nil {
			return Prediction{}, false
		}
		s.work += len(w.lines)
		p := w.prediction(s.rounds)
		p.Longest = s.best.Longest
		return p, true
	}
	cost := func(p Prediction) float64 { return max(p.lateness()/wellAll, p.drift()/wellAll, p.straying()/enough) }
	best, kept, lost := s.best, s.fitting.copy(), s.best.score() > hopeful || s.best.doubt() > 1
	s.work = 0
	for turn := range finals {
		p, ok := run(&s.fitting, all)
		if !ok {
			break
		}
		if turn == 0 || cost(p) < cost(best) {
			best, kept = p, s.fitting.copy()
		}
		if cost(best) <= 1 || s.brief && best.score() < enough || math.Abs(p.RoundLate) > hopeless*p.RoundPlanned || lost || turn == finals-1 || s.work > s.trimWork() {
			break
		}
		s.fitting = kept.copy()
		guess, ok := run(&s.fitting, some)
		if !ok {
			break
		}
		// What each round is later than some of them show.
		unseen := best.RoundLate - guess.RoundLate
		s.best = guess
		s.best.RoundLate = best.RoundLate
		s.trim(turn, func(f *fitting) (Prediction, bool) {
			p, ok := run(f, some)
			p.RoundLate += unseen
			return p, ok
		})
	}
	s.best, s.fitting = best, kept
}

// last runs all the lines of a take of which only the first rounds have been run,
// if it follows by those.
func (s *search) last() {
	if !s.best.Follows() || s.best.Ran >= s.rounds || s.rounds*int64(s.best.Blocks) > maxWhole {
		return
	}
	w, err := s.m.run(s.take, int(s.rounds), s.ideal)
	if err != nil {
		return
	}
	p := w.prediction(s.rounds)
	p.Longest, p.Treads, p.Unsure, p.Axes = s.best.Longest, s.best.Treads, s.best.Unsure, worseOf(p.Axes, s.best.Axes)
	s.best = p
}

// golden spreads numbers evenly, however many they are.
const golden = 0.6180339887498949

// scatter is a number from -1 to 1 that looks like chance and is not.
func scatter(i, k int) float64 {
	x := math.Mod(float64(i+1)*golden+float64(k+1)*golden*golden*7, 1)
	return 2*math.Mod(x*1009, 1) - 1
}

// secants is how often the pace of a whole round is set right by what rounds are
// late, before single blocks are.
const secants = 3

// trim looks for paces at which all rounds together are least late and off, by
// what run says of them; again tells one call from the next.
func (s *search) trim(again int, run func(*fitting) (Prediction, bool)) {
	cost := func(p Prediction) float64 { return max(p.drift()/well, p.straying()/enough) }
	best := cost(s.best)
	for i := 0; i < trims && best > 1 && s.work < s.trimWork(); i++ {
		f := s.fitting.copy()
		each := s.best.RoundLate
		if i < secants {
			f.scale *= 1 - each/s.best.RoundPlanned
		} else {
			f.nudge(again*trims+i, each)
		}
		f.solve()
		p, ok := run(&f)
		if !ok {
			return
		}
		if c := cost(p); c < best {
			best, s.fitting, s.best = c, f, p
		}
	}
}

// nudged is how many blocks are told a little more or less at a time.
const nudged = 3

// nudge aims some blocks of the round, others each time, to take off what each
// round is late by, and some ticks more or less.
func (f *fitting) nudge(turn int, late float64) {
	round := f.take.Round
	for k := range nudged {
		b := int((scatter(turn, k) + 1) / 2 * float64(len(round)))
		if b >= len(round) || round[b].Rest {
			continue
		}
		share := (scatter(turn, k+nudged) + 1) / nudged
		more, most := f.extra.round[b]+f.stair(b)*scatter(turn, k+2*nudged)-late*share, maxExtra*round[b].Seconds.Float()
		f.extra.round[b] = min(max(more, -most), most)
	}
}

// stair is by how many s the time of block b changes where its step interval is
// a tick longer.
func (f *fitting) stair(b int) float64 {
	timer := f.m.board.Timer
	round := f.take.Round
	if timer.Hz == 0 {
		return 0
	}
	before := round[(b+len(round)-1)%len(round)].End
	events := 1.0
	for i, a := range f.m.axes {
		events = max(events, math.Abs(round[b].End[i]-before[i])*a.StepsPerUnit.Float())
	}
	return timer.Stair(round[b].Seconds.Float()/events) * events
}

// steadies is how often lines are moved off the last digits they hang on.
const steadies = 5

// steady moves lines whose step intervals hang on the last digit of a number a
// little to the side that they are on: they stay as they are, whatever rounds.
func (s *search) steady() {
	for range steadies {
		f := s.fitting.copy()
		w, err := f.m.run(f.take, f.few(), s.ideal)
		if err != nil || !f.offEdges(w) {
			return
		}
		f.solve()
		w, err = f.m.run(f.take, int(s.best.Ran), s.ideal)
		if err != nil {
			return
		}
		p := w.prediction(s.rounds)
		p.Longest = s.best.Longest
		if p.score() > max(enough, s.best.score()) {
			return
		}
		s.fitting, s.best = f, p
	}
}

// offEdges moves the lines of all stages that hang on a digit, and tells whether
// any does.
func (f *fitting) offEdges(w *witness) bool {
	some := false
	for i := range w.lines {
		l := &w.lines[i]
		list := f.extra.round
		switch {
		case l.round < 0:
			list = f.extra.up
		case l.round >= int64(w.rounds):
			list = f.extra.out
		case l.round != int64(w.rounds-1):
			continue
		}
		if l.edge != 0 && l.block < len(list) {
			list[l.block] += offEdge * float64(l.edge) * (l.end - l.start)
			some = true
		}
	}
	return some
}

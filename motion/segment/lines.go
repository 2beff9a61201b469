package segment

import (
	"math"

	"seamrail/motion/exact"
	"seamrail/motion/lookahead"
	"seamrail/motion/rig"
	"seamrail/motion/told"
	"seamrail/motion/trajectory"
)

// machine is the rig's controller, as far as blocks concern it.
type machine struct {
	t       *trajectory.Trajectory
	c       rig.Controller
	axes    []rig.Axis
	advance []exact.Rat
	planner lookahead.Planner
}

func newMachine(t *trajectory.Trajectory) *machine {
	m := &machine{t: t, c: t.Rig().Controller}
	for i := range t.AxisCount() {
		m.axes = append(m.axes, t.Axis(i))
		m.advance = append(m.advance, t.Advance(i))
	}
	m.planner = lookahead.Of(m.c, m.axes)
	return m
}

// script is what the controller is told of a take of a few rounds.
type script struct {
	rest    []int64 // steps of each axis at the beginning
	moves   []lookahead.Move
	blocks  []*Block  // that made each move; nil for what settles at an end
	targets []float64 // s of the path that each move takes
	stretch []float64 // by which each is told to take longer; see told.Stretch
	rounds  []int     // the first move of each round, and the first after them
}

// charsBeside are the letters, spaces, feed and line end of a line; each word
// of an axis has some more.
const (
	charsBeside  = 14
	charsOfWord  = 3
	charsOfDwell = 14
)

// script returns what is told of so many rounds.
func (m *machine) script(k Take, rounds int) *script {
	s := &script{}
	var in *Block
	past := 0.0
	var t *told.Teller
	t = told.New(m.c, m.axes, m.advance, func(l *told.Line) {
		s.moves = append(s.moves, m.move(t, l))
		s.blocks = append(s.blocks, in)
		s.targets = append(s.targets, l.Until-past)
		s.stretch = append(s.stretch, t.Stretch(l))
		past = l.Until
	})
	tell := func(blocks []Block) {
		for i := range blocks {
			in = &blocks[i]
			t.Block(in.Seconds.Float(), in.Nominal.Float(), in.End, in.Rest)
		}
	}
	t.Start(k.Rest)
	for i := range t.Axes {
		s.rest = append(s.rest, t.Axes[i].Steps(t.Axes[i].Told))
	}
	tell(k.RunUp)
	for r := range rounds {
		s.rounds = append(s.rounds, len(s.moves))
		t.Shift(int64(r))
		tell(k.Round)
	}
	s.rounds = append(s.rounds, len(s.moves))
	tell(k.RunOut)
	in = nil
	t.Settle()
	return s
}

func (m *machine) move(t *told.Teller, l *told.Line) lookahead.Move {
	if !l.Moves {
		return lookahead.Move{Seconds: l.Seconds, Chars: charsOfDwell}
	}
	out := lookahead.Move{Steps: append([]int64(nil), l.Steps...), Seconds: t.Written(l), Chars: charsBeside}
	if math.IsInf(out.Seconds, 1) {
		out.Seconds = l.Seconds // it cannot be written, and whoever writes says so
	}
	for i := range t.Axes {
		if a := &t.Axes[i]; a.Target != a.Told {
			out.Chars += charsOfWord + digits(a.Target)
		}
	}
	return out
}

// digits is how many characters n has.
func digits(n int64) int {
	count := 1
	if n < 0 {
		n, count = -n, 2
	}
	for ; n >= 10; n /= 10 {
		count++
	}
	return count
}

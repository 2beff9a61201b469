package ontime

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"
	"strconv"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/spec/rig"
)

// remedy is one thing of a controller that could be better: how, by growing
// factors, and what to say when that alone would let it follow.
type remedy struct {
	factors []float64
	apply   func(c *rig.Controller, axes []rig.Axis, by float64)
	say     func(by float64) fault.Fault
	last    bool // asked only where nothing before it helps
	upward  bool // more of it may do harm: the least is looked for from below
}

// diagnose says why the controller cannot follow: each thing that, made better
// alone, would let it. Each was tried.
func (s *search) diagnose() fault.List {
	if f, ok := s.worn(); ok {
		return fault.List{f}
	}
	if f, ok := s.rounded(); ok {
		return fault.List{f}
	}
	var out fault.List
	s.work = 0
	for _, r := range s.remedies() {
		if s.work > maxDoubt || r.last && len(out) > 0 {
			continue
		}
		if by, ok := s.least(r); ok {
			out = append(out, s.resting(r.say(by)))
		}
	}
	if len(out) == 0 {
		out = append(out, s.resting(s.noRemedy()))
	}
	return out.Sorted()
}

// rounded says that only so many rounds add up to too much, and how many do not: as
// many as were tried.
func (s *search) rounded() (fault.Fault, bool) {
	n, ok := s.fewer()
	if !ok {
		return fault.Fault{}, false
	}
	f := at("rounds", strconv.FormatInt(s.rounds, 10), s.best.sum()+" on this controller", fmt.Sprintf("takes of %d rounds would do", n))
	f.Edits = []fault.Edit{{Path: "take.rounds", Text: strconv.FormatInt(n, 10)}}
	return f, true
}

// fewer is how many rounds would do, by halving.
func (s *search) fewer() (int64, bool) {
	for n := s.rounds / 2; n > 0; n /= 2 {
		w, err := s.m.run(s.take, int(min(n, s.best.Ran)), s.ideal)
		if err != nil || n > s.best.Ran {
			continue
		}
		if p := s.sturdy(&s.fitting, w.prediction(n), int(n)); p.Follows() {
			return n, true
		}
		if n <= modelled {
			break
		}
	}
	return 0, false
}

// sum says what rounds come to that are too many.
func (p Prediction) sum() string {
	unsure := p.Unsure * float64(p.Rounds)
	switch {
	case p.lateness() <= 1:
		d := slices.MaxFunc(p.Axes, func(a, b Deviation) int { return cmp.Compare(math.Abs(a.Worst)/a.Wanted, math.Abs(b.Worst)/b.Wanted) })
		return fmt.Sprintf("have axis %s %s %s off in the end", d.Axis, number(math.Abs(d.Worst)), d.Unit)
	case unsure > p.Within/10:
		return fmt.Sprintf("add up to %s ms, give or take %s by what is not known of the board,", number(math.Abs(p.Late)*1000), number(unsure*1000))
	}
	return fmt.Sprintf("add up to %s ms", number(math.Abs(p.Late)*1000))
}

// least is the least factor of the relief that lets the controller follow. It is
// looked for by what two rounds show, by halving where more of it does no harm, and
// then tried in earnest.
func (s *search) least(r remedy) (by float64, ok bool) {
	helps := func(i int) bool { return s.seems(r, r.factors[i]) }
	n := len(r.factors)
	from := 0
	switch {
	case r.upward:
		for from < n && !helps(from) {
			from++
		}
	case !helps(n - 1):
		return 0, false
	default:
		from = sort.Search(n-1, helps)
	}
	for k := from; k < min(from+confirms, n); k++ {
		if s.follows(r, r.factors[k]) {
			return r.factors[k], true
		}
	}
	return 0, false
}

// confirms is how many factors are tried in earnest.
const confirms = 2

// doubtful are the block durations, by their place in the ladder, that are
// tried with each relief at first: the usual one, and a longer one.
var doubtful = [...]int{0, 4}

const (
	// maxEarnest bounds the lines that are run to try one thing in earnest, for
	// each part of the search, and maxDoubt those for all of them: a second.
	maxEarnest = 40_000
	maxDoubt   = 400_000
)

// seemTurns is how often the lines of a take are corrected to see whether a relief
// may help.
const seemTurns = 4

// hopeful is how many times what is promised a take may then be off for more
// turns, other blocks and paces to bring it there.
const hopeful = 4

// better is the search for a controller that is better so.
func (s *search) better(r remedy, by float64) *search {
	c, axes := s.m.c, slices.Clone(s.m.axes)
	r.apply(&c, axes, by)
	m := machineOf(s.m.t, c, axes)
	m.opening, m.until = s.m.opening, s.m.until
	return &search{m: m, rounds: s.rounds, ideal: s.ideal, ladder: m.ladder(), most: maxEarnest, brief: true}
}

// seems tells whether two rounds on a controller that is better so would be on
// time, or nearly.
func (s *search) seems(r remedy, by float64) bool {
	try := s.better(r, by)
	defer func() { s.work += try.work }()
	for _, k := range doubtful {
		if k >= len(try.ladder) {
			return false
		}
		for _, long := range []bool{false, true} {
			if long && !try.m.rests() {
				break
			}
			if _, p, err := try.fitIn(seemTurns, try.m, way{longest: try.ladder[k], long: long}); err == nil && p.score() <= hopeful {
				return true
			}
		}
	}
	return false
}

// follows tells whether a controller that is better so follows, by the first rounds
// and what is not known: paces are trimmed for the others as always.
func (s *search) follows(r remedy, by float64) bool {
	try := s.better(r, by)
	if !try.all() {
		return false
	}
	s.work += try.work
	switch score := try.best.score(); {
	case score < enough:
		return true
	case score > 1:
		return false
	}
	whole := s.better(r, by) // it may just do: as a whole take would
	return whole.whole() && whole.best.Follows()
}

var (
	few      = []float64{1.25, 1.5, 2, 3, 4}
	little   = []float64{1.005, 1.01, 1.02, 1.05}
	finer    = []float64{2, 4, 8, 16, 32, 64}
	doubling = []float64{2, 4, 8, 16, 32}
	some     = []float64{1.25, 1.5, 2, 3, 4, 6, 8, 12, 16, 24}
	tenfold  = []float64{2, 5, 10, 20, 50, 100}
)

func (s *search) remedies() []remedy {
	c := s.m.c
	list := s.accelerations()
	list = append(list, []remedy{
		{few, func(c *rig.Controller, _ []rig.Axis, by float64) { c.Blocks = int(math.Ceil(float64(c.Blocks) * by)) },
			func(by float64) fault.Fault {
				return at(lookAhead, fmt.Sprintf("%d blocks", c.Blocks), "is too short to plan this move",
					fmt.Sprintf("a ring of %.0f blocks would do", math.Ceil(float64(c.Blocks)*by)))
			}, false, false},
		{tenfold, func(c *rig.Controller, _ []rig.Axis, by float64) { c.JunctionDeviation *= by },
			func(by float64) fault.Fault {
				return at(junction, number(c.JunctionDeviation)+" mm", "slows the move down at every corner",
					number(c.JunctionDeviation*by)+" mm would do")
			}, false, false},
	}...)
	if c.FeedDecimals > 0 && c.FeedDecimals < fineFeed {
		list = append(list, remedy{[]float64{1}, func(c *rig.Controller, _ []rig.Axis, _ float64) { c.FeedDecimals = fineFeed },
			func(float64) fault.Fault {
				return at(feedWord, fmt.Sprintf("of %d decimals", c.FeedDecimals), "rounds too coarsely for this move", "more decimals would do")
			}, false, false})
	}
	if s.m.slowest > 0 {
		list = append(list, remedy{finer, moreSteps,
			func(by float64) fault.Fault {
				return at(slowRate, number(s.m.slowest)+" steps/s", "is faster than the move where it is slow",
					fmt.Sprintf("%.0f times as many steps, by microsteps or gearing, would do; so would a faster move at a higher capture rate, or a board that plays a table of steps", by))
			}, false, true})
	}
	if c.Timer.Hz > 0 {
		list = append(list, remedy{[]float64{1}, func(c *rig.Controller, _ []rig.Axis, _ float64) {
			c.Timer, c.SlowestStepRate = rig.StepTimer{Known: true}, 0
		}, func(float64) fault.Fault {
			return at(stepTimer, c.Timer.String(), "counts too coarsely for this move", "a board with a finer one would do")
		}, true, false})
	}
	return append(append(list, s.restReliefs()...), s.linkReliefs(c)...)
}

// fineFeed is a number of decimals that no feed needs more than.
const fineFeed = 6

// moreSteps gives each axis more steps a unit.
func moreSteps(_ *rig.Controller, axes []rig.Axis, by float64) {
	for i := range axes {
		axes[i].StepsPerUnit = axes[i].StepsPerUnit.Mul(exact.Int(int64(by)))
	}
}

// restReliefs are about dwells that are not as long as they are told.
func (s *search) restReliefs() []remedy {
	c := s.m.c
	if !s.m.rests() {
		return nil
	}
	var list []remedy
	if c.IdleDelay > 0 {
		list = append(list, remedy{[]float64{1}, func(c *rig.Controller, _ []rig.Axis, _ float64) { c.IdleDelay = 0 },
			func(float64) fault.Fault {
				return at(idleDelay, number(c.IdleDelay*1000)+" ms", "makes each rest longer", "motors that stay on would do: $1=255, and idle-delay = \"none\"")
			}, false, false})
	}
	if c.DwellGrain > 0 {
		list = append(list, remedy{[]float64{1}, func(c *rig.Controller, _ []rig.Axis, _ float64) { c.DwellGrain = 0 },
			func(float64) fault.Fault {
				return at(dwellGrains, "in wholes of "+number(c.DwellGrain*1000)+" ms", "do not fit the rests of this move", "rests of whole multiples, or a gentler law beside them, would do")
			}, true, false})
	}
	return list
}

// busyLink is the share of a link's bits beyond which it may be what is in the way.
const busyLink = 0.5

// chars is how many bits a second the lines of a round are, about.
func (s *search) chars() float64 {
	return float64(s.best.Blocks) * s.m.wireTime() * float64(s.m.link.Baud) / s.best.RoundPlanned
}

func (s *search) linkReliefs(c rig.Controller) []remedy {
	var list []remedy
	if c.Baud > 0 && s.chars() > busyLink*float64(c.Baud) {
		list = append(list, remedy{doubling, func(c *rig.Controller, _ []rig.Axis, by float64) { c.Baud = int(float64(c.Baud) * by) },
			func(by float64) fault.Fault {
				return at(wire, strconv.Itoa(c.Baud)+" bits/s", "is too slow for the lines of this move",
					fmt.Sprintf("%.0f bits/s would do", float64(c.Baud)*by))
			}, false, false})
	}
	if c.Kind.OneByOne() {
		list = append(list, remedy{[]float64{1}, func(c *rig.Controller, _ []rig.Axis, _ float64) { c.Kind = rig.Buffered },
			func(float64) fault.Fault {
				return at("one line, one answer", "", "takes longer than the lines of this move",
					"a controller whose receive buffer is counted would do")
			}, false, false})
	}
	if c.SegmentRate > 0 {
		list = append(list, remedy{some, func(c *rig.Controller, _ []rig.Axis, by float64) { c.SegmentRate *= by },
			func(by float64) fault.Fault {
				return at("segment rate", number(c.SegmentRate)+" lines/s", "is too low for this move",
					number(c.SegmentRate*by)+" lines/s would do")
			}, false, false})
	}
	return list
}

// accelerations are the acceleration settings of each axis alone, and of all
// together. In a block of two axes the setting of either bounds both.
func (s *search) accelerations() []remedy {
	var list []remedy
	for i, a := range s.m.axes {
		list = append(list, remedy{some, func(_ *rig.Controller, axes []rig.Axis, by float64) { hasten(axes, by, i) },
			func(by float64) fault.Fault { return s.slack(i, by, a) }, false, false})
	}
	list = append(list, s.speeds()...)
	all := make([]int, len(s.m.axes))
	for i := range all {
		all[i] = i
	}
	list = append(list, s.roomier(all))
	if len(s.m.axes) < 2 {
		return list
	}
	return append(list, remedy{some, func(_ *rig.Controller, axes []rig.Axis, by float64) { hasten(axes, by, all...) },
		func(by float64) fault.Fault {
			return at(accelerationsSet, "", "are too low for the axes' moves together",
				number(by)+" times as much on each axis would do")
		}, true, false})
}

// roomier is speed and acceleration settings of all axes together, for moves that
// use an axis up.
func (s *search) roomier(all []int) remedy {
	const spare = 1.02
	return remedy{[]float64{1.25, 1.5, 2, 3, 4}, func(_ *rig.Controller, axes []rig.Axis, by float64) {
		hasten(axes, by, all...)
		for i := range axes {
			axes[i].Settings.Speed = s.m.board.Axes[i].Speed * spare
		}
	}, func(by float64) fault.Fault {
		return at(settingsSet, "", "leave no room beyond what this move asks of the axes",
			fmt.Sprintf("speeds 2 %% higher and %s times the acceleration on each axis would do", number(by)))
	}, true, false}
}

// speeds are the speed settings of each axis: at its greatest speed an axis has
// none to spare for what the step timer adds.
func (s *search) speeds() []remedy {
	var list []remedy
	for i, a := range s.m.axes {
		setting := s.m.board.Axes[i].Speed
		list = append(list, remedy{little, func(_ *rig.Controller, axes []rig.Axis, by float64) {
			axes[i].Settings.Speed = setting * by
		}, func(by float64) fault.Fault {
			f := at(speedSet, number(setting)+" "+a.Unit()+"/s", "leaves nothing to make up for its step timer with",
				number(setting*by)+" "+a.Unit()+"/s would do")
			f.Axis = a.Name
			return f
		}, false, false})
	}
	return list
}

func (s *search) slack(i int, by float64, a rig.Axis) fault.Fault {
	setting := s.m.board.Axes[i].Acceleration
	f := at(accelerationSet, number(setting)+" "+a.Unit()+"/s2", "is too low for this move",
		number(setting*by)+" "+a.Unit()+"/s2 would do")
	f.Axis = a.Name
	return f
}

func hasten(axes []rig.Axis, by float64, which ...int) {
	for _, i := range which {
		if axes[i].Settings.Acceleration <= 0 {
			axes[i].Settings.Acceleration = axes[i].MaxAcc
		}
		axes[i].Settings.Acceleration *= by
	}
}

// noRemedy is what to say where no single thing would help.
func (s *search) noRemedy() fault.Fault {
	if s.m.slowest > 0 && s.best.RoundLate < -hopeless*s.best.RoundPlanned {
		return at(slowRate, number(s.m.slowest)+" steps/s", "is far faster than the move",
			playsSteps+"; not tried: a faster move at a higher capture rate")
	}
	when, other := "late", "a slower move"
	if s.best.RoundLate < 0 {
		when, other = "early", "a faster move at a higher capture rate: such boards go no slower than a unit a minute (common practice; a line of 1 mm that is to take two minutes tells)"
	}
	f := at("controller", "", "cannot follow this move: it would be "+number(math.Abs(s.best.RoundLate)*1000)+" ms "+when+" each round", "")
	f.Fit = playsSteps + "; not tried: " + other
	for _, d := range s.best.Axes {
		if math.Abs(d.Worst) > d.Wanted {
			f.Where = fmt.Sprintf("and axis %s %s %s off its path at captured frame %d", d.Axis, number(math.Abs(d.Worst)), d.Unit, d.Frame)
		}
	}
	return f
}

// playsSteps is what does whatever the move is: such a board plans nothing of its own.
const playsSteps = "a board that plays a table of steps would do"

func at(quantity, value, bound, fit string) fault.Fault {
	return fault.Fault{Quantity: quantity, Value: value, Bound: bound, Fit: fit}
}

// number prints v with three significant digits, or more where it is whole.
func number(v float64) string {
	if v == math.Trunc(v) || math.Abs(v) >= 1000 {
		return strconv.FormatFloat(v, 'f', 0, 64)
	}
	return strconv.FormatFloat(v, 'g', 3, 64)
}

package ontime

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strconv"

	"seamrail/motion/exact"
	"seamrail/motion/fault"
	"seamrail/motion/rig"
)

// relief is one thing of a controller that could be better: how, by growing
// factors, and what to say when that alone would let it follow.
type relief struct {
	factors []float64
	apply   func(c *rig.Controller, axes []rig.Axis, by float64)
	say     func(by float64) fault.Fault
	last    bool // asked only where nothing before it helps
	upward  bool // more of it may do harm: the least is looked for from below
}

// doubts says why the controller cannot follow: each thing that, made better
// alone, would let it. Each was tried.
func (s *search) doubts() fault.List {
	var out fault.List
	for _, r := range s.reliefs() {
		if r.last && len(out) > 0 {
			continue
		}
		if by, ok := s.least(r); ok {
			out = append(out, r.say(by))
		}
	}
	if len(out) == 0 {
		out = append(out, s.helpless())
	}
	return out.Sorted()
}

// least is the least factor of the relief that lets the controller follow. Where
// more of it does no harm, halving finds it.
func (s *search) least(r relief) (by float64, ok bool) {
	s.work = 0
	helps := func(by float64) bool { return s.follows(r, by) }
	n := len(r.factors)
	if r.upward {
		for _, by := range r.factors {
			if helps(by) {
				return by, true
			}
		}
		return 0, false
	}
	if !helps(r.factors[n-1]) {
		return 0, false
	}
	k := sort.Search(n-1, func(i int) bool { return helps(r.factors[i]) })
	return r.factors[k], true
}

// doubtful are the block durations, by their place in the ladder, that are
// tried with each relief: the usual one, shorter and longer.
var doubtful = [...]int{0, 1, 3, 5}

// mostRelief bounds the lines that are run to try one thing.
const mostRelief = 8_000

// follows tells whether a controller that is better so would follow.
func (s *search) follows(r relief, by float64) bool {
	c, axes := s.m.c, slices.Clone(s.m.axes)
	r.apply(&c, axes, by)
	try := &search{m: machineOf(s.m.t, c, axes), rounds: s.rounds, ideal: s.ideal}
	for _, k := range doubtful {
		if k >= len(s.ladder) || s.work > mostRelief {
			return false
		}
		for _, w := range try.ways(s.ladder[k]) {
			f, p, err := try.fit(try.m, w)
			if err != nil {
				continue
			}
			if p.Follows() && s.rounds > p.Rounds {
				try.fitting, try.best = f, p.over(s.rounds)
				try.finish()
				p = try.best
			}
			s.work += try.work
			try.work = 0
			if p.Follows() {
				return true
			}
		}
	}
	return false
}

var (
	few      = []float64{1.25, 1.5, 2, 3, 4}
	finer    = []float64{2, 4, 8, 16, 32, 64}
	doubling = []float64{2, 4, 8, 16, 32, 64, 128, 256, 512, 1024, 2048, 4096}
	some     = []float64{1.25, 1.5, 2, 3, 4, 6, 8, 12, 16, 24}
	tenfold  = []float64{2, 5, 10, 20, 50, 100}
)

func (s *search) reliefs() []relief {
	c := s.m.c
	list := s.accelerations()
	list = append(list, []relief{
		{few, func(c *rig.Controller, _ []rig.Axis, by float64) { c.Blocks = int(math.Ceil(float64(c.Blocks) * by)) },
			func(by float64) fault.Fault {
				return at("look-ahead", fmt.Sprintf("%d blocks", c.Blocks), "is too short to plan this move",
					fmt.Sprintf("a ring of %.0f blocks would do", math.Ceil(float64(c.Blocks)*by)))
			}, false, false},
		{tenfold, func(c *rig.Controller, _ []rig.Axis, by float64) { c.JunctionDeviation *= by },
			func(by float64) fault.Fault {
				return at("junction deviation", number(c.JunctionDeviation)+" mm", "slows the move down at every corner",
					number(c.JunctionDeviation*by)+" mm would do")
			}, false, false},
	}...)
	if c.FeedDecimals > 0 && c.FeedDecimals < fineFeed {
		list = append(list, relief{[]float64{1}, func(c *rig.Controller, _ []rig.Axis, _ float64) { c.FeedDecimals = fineFeed },
			func(float64) fault.Fault {
				return at("feed word", fmt.Sprintf("of %d decimals", c.FeedDecimals), "rounds too coarsely for this move", "more decimals would do")
			}, false, false})
	}
	if s.m.slowest > 0 {
		list = append(list, relief{finer, moreSteps,
			func(by float64) fault.Fault {
				return at("slowest step rate", number(s.m.slowest)+" steps/s", "is faster than the move where it is slow",
					fmt.Sprintf("%.0f times as many steps, by microsteps or gearing, would do; so would a faster move at a higher capture rate, or a board that plays a table of steps", by))
			}, false, true})
	}
	if c.Timer.Hz > 0 {
		list = append(list, relief{[]float64{1}, func(c *rig.Controller, _ []rig.Axis, _ float64) {
			c.Timer, c.SlowestStepRate = rig.StepTimer{Known: true}, 0
		}, func(float64) fault.Fault {
			return at("step timer", c.Timer.String(), "counts too coarsely for this move", "a board with a finer one would do")
		}, true, false})
	}
	return append(append(list, s.restReliefs()...), linkReliefs(c)...)
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
func (s *search) restReliefs() []relief {
	c := s.m.c
	if !s.m.rests() {
		return nil
	}
	var list []relief
	if c.IdleDelay > 0 {
		list = append(list, relief{[]float64{1}, func(c *rig.Controller, _ []rig.Axis, _ float64) { c.IdleDelay = 0 },
			func(float64) fault.Fault {
				return at("idle delay", number(c.IdleDelay*1000)+" ms", "makes each rest longer", "motors that stay on would do: $1=255, and idle-delay = \"none\"")
			}, false, false})
	}
	if c.DwellGrain > 0 {
		list = append(list, relief{[]float64{1}, func(c *rig.Controller, _ []rig.Axis, _ float64) { c.DwellGrain = 0 },
			func(float64) fault.Fault {
				return at("dwells", "in wholes of "+number(c.DwellGrain*1000)+" ms", "do not fit the rests of this move", "rests of whole multiples, or a gentler law beside them, would do")
			}, true, false})
	}
	return list
}

func linkReliefs(c rig.Controller) []relief {
	var list []relief
	if c.Baud > 0 {
		list = append(list, relief{doubling, func(c *rig.Controller, _ []rig.Axis, by float64) { c.Baud = int(float64(c.Baud) * by) },
			func(by float64) fault.Fault {
				return at("link", strconv.Itoa(c.Baud)+" bits/s", "is too slow for the lines of this move",
					fmt.Sprintf("%.0f bits/s would do", float64(c.Baud)*by))
			}, false, false})
	}
	if c.Kind == rig.Lockstep {
		list = append(list, relief{[]float64{1}, func(c *rig.Controller, _ []rig.Axis, _ float64) { c.Kind = rig.Buffered },
			func(float64) fault.Fault {
				return at("one line, one answer", "", "takes longer than the lines of this move",
					"a controller whose receive buffer is counted would do")
			}, false, false})
	}
	if c.SegmentRate > 0 {
		list = append(list, relief{some, func(c *rig.Controller, _ []rig.Axis, by float64) { c.SegmentRate *= by },
			func(by float64) fault.Fault {
				return at("segment rate", number(c.SegmentRate)+" lines/s", "is too low for this move",
					number(c.SegmentRate*by)+" lines/s would do")
			}, false, false})
	}
	return list
}

// accelerations are the acceleration settings of each axis alone, and of all
// together. In a block of two axes the setting of either bounds both.
func (s *search) accelerations() []relief {
	var list []relief
	for i, a := range s.m.axes {
		list = append(list, relief{some, func(_ *rig.Controller, axes []rig.Axis, by float64) { hasten(axes, by, i) },
			func(by float64) fault.Fault { return s.slack(i, by, a) }, false, false})
	}
	if len(list) < 2 {
		return list
	}
	all := make([]int, len(s.m.axes))
	for i := range all {
		all[i] = i
	}
	return append(list, relief{some, func(_ *rig.Controller, axes []rig.Axis, by float64) { hasten(axes, by, all...) },
		func(by float64) fault.Fault {
			return at("acceleration settings of the controller", "", "are too low for the axes' moves together",
				number(by)+" times as much on each axis would do")
		}, true, false})
}

func (s *search) slack(i int, by float64, a rig.Axis) fault.Fault {
	setting := s.m.board.Axes[i].Acceleration
	f := at("acceleration setting of the controller", number(setting)+" "+a.Unit()+"/s2", "is too low for this move",
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

// helpless is what to say where no single thing would help.
func (s *search) helpless() fault.Fault {
	if s.m.slowest > 0 && s.best.RoundLate < -hopeless*s.best.RoundPlanned {
		return at("slowest step rate", number(s.m.slowest)+" steps/s", "is far faster than the move",
			"a faster move at a higher capture rate, or a board that plays a table of steps, would do")
	}
	when := "late"
	if s.best.RoundLate < 0 {
		when = "early"
	}
	f := at("controller", "", "cannot follow this move: it would be "+number(math.Abs(s.best.RoundLate)*1000)+" ms "+when+" each round", "")
	f.Fit = "a slower move, or a board that plays a table of steps, would do"
	for _, d := range s.best.Axes {
		if math.Abs(d.Worst) > d.Wanted {
			f.Where = fmt.Sprintf("and axis %s %s off its path at captured frame %d", d.Axis, number(math.Abs(d.Worst)), d.Frame)
		}
	}
	return f
}

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

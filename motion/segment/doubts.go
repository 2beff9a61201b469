package segment

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strconv"

	"seamrail/motion/fault"
	"seamrail/motion/lookahead"
	"seamrail/motion/rig"
)

// relief is one thing of a controller that could be better: how, by growing
// factors, and what to say when that alone would let it follow.
type relief struct {
	factors []float64
	apply   func(m *machine, by float64)
	say     func(by float64) fault.Fault
	last    bool // asked only where nothing before it helps
}

// doubts says why the controller cannot follow: each thing that, made better
// alone, would let it.
func (s *search) doubts() fault.List {
	var out fault.List
	s.work = 0
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

// least is the least factor of the relief that lets the controller follow. More
// of it does no harm, so that halving finds it.
func (s *search) least(r relief) (by float64, ok bool) {
	helps := func(by float64) bool { return s.follows(func(m *machine) { r.apply(m, by) }) }
	n := len(r.factors)
	if !helps(r.factors[n-1]) {
		return 0, false
	}
	k := sort.Search(n-1, func(i int) bool { return helps(r.factors[i]) })
	return r.factors[k], true
}

// doubtful are the block durations, by their place in the ladder, that are
// tried with each relief: the usual one, shorter and longer.
var doubtful = [...]int{0, 1, 3, 5}

// follows tells whether a controller changed so would follow.
func (s *search) follows(change func(*machine)) bool {
	m := *s.m
	change(&m)
	for _, k := range doubtful {
		if k >= len(s.ladder) || s.work > mostWork {
			return false
		}
		if _, p := s.fit(&m, s.ladder[k], s.ramps()); p.Follows() {
			return true
		}
	}
	return false
}

var (
	few      = []float64{1.25, 1.5, 2, 3, 4}
	doubling = []float64{2, 4, 8, 16, 32, 64, 128, 256, 512, 1024, 2048, 4096}
	some     = []float64{1.25, 1.5, 2, 3, 4, 6, 8, 12, 16, 24}
	tenfold  = []float64{2, 5, 10, 20, 50, 100}
)

func (s *search) reliefs() []relief {
	c, p := s.m.c, &s.m.planner
	list := s.accelerations()
	list = append(list, []relief{
		{few, func(m *machine, by float64) { m.planner.Blocks = int(math.Ceil(float64(m.planner.Blocks) * by)) },
			func(by float64) fault.Fault {
				return at("look-ahead", fmt.Sprintf("%d blocks", p.Blocks), "is too short to plan this move",
					fmt.Sprintf("a ring of %.0f blocks would do", math.Ceil(float64(p.Blocks)*by)))
			}, false},
		{tenfold, func(m *machine, by float64) { m.planner.Deviation *= by },
			func(by float64) fault.Fault {
				return at("junction deviation", number(p.Deviation)+" mm", "slows the move down at every corner",
					number(p.Deviation*by)+" mm would do")
			}, false},
	}...)
	if c.FeedDecimals > 0 {
		list = append(list, relief{[]float64{1}, func(m *machine, _ float64) { m.c.FeedDecimals = 0 },
			func(float64) fault.Fault {
				return at("feed word", fmt.Sprintf("of %d decimals", c.FeedDecimals), "rounds too coarsely for this move", "more decimals would do")
			}, false})
	}
	if p.Slowest > 0 {
		list = append(list, relief{doubling, func(m *machine, by float64) { m.planner.Slowest /= by },
			func(by float64) fault.Fault {
				return at("slowest step rate", number(p.Slowest)+" steps/s", "is faster than the move where it is slow",
					fmt.Sprintf("%.0f times as many steps, by microsteps or gearing, would do; so would a faster move at a higher capture rate, or a board that plays a table of steps", by))
			}, false})
	}
	return append(list, linkReliefs(c, p)...)
}

func linkReliefs(c rig.Controller, p *lookahead.Planner) []relief {
	var list []relief
	if p.Link.Baud > 0 {
		list = append(list, relief{doubling, func(m *machine, by float64) { m.planner.Link.Baud = int(float64(m.planner.Link.Baud) * by) },
			func(by float64) fault.Fault {
				return at("link", strconv.Itoa(c.Baud)+" bits/s", "is too slow for the lines of this move",
					fmt.Sprintf("%.0f bits/s would do", float64(c.Baud)*by))
			}, false})
	}
	if p.Link.Reply > 0 {
		list = append(list, relief{[]float64{1}, func(m *machine, _ float64) { m.planner.Link.Reply = 0 },
			func(float64) fault.Fault {
				return at("one line, one answer", "", "takes longer than the lines of this move",
					"a controller whose receive buffer is counted would do")
			}, false})
	}
	if p.Link.Rate > 0 {
		list = append(list, relief{some, func(m *machine, by float64) { m.planner.Link.Rate *= by },
			func(by float64) fault.Fault {
				return at("segment rate", number(p.Link.Rate)+" lines/s", "is too low for this move",
					number(p.Link.Rate*by)+" lines/s would do")
			}, false})
	}
	return list
}

// accelerations are the acceleration settings of each axis alone, and of all
// together. In a block of two axes the setting of either bounds both.
func (s *search) accelerations() []relief {
	var list []relief
	for i, a := range s.m.axes {
		list = append(list, relief{some, func(m *machine, by float64) { hasten(m, by, i) },
			func(by float64) fault.Fault { return s.slack(i, by, a) }, false})
	}
	if len(list) < 2 {
		return list
	}
	all := make([]int, len(s.m.axes))
	for i := range all {
		all[i] = i
	}
	return append(list, relief{some, func(m *machine, by float64) { hasten(m, by, all...) },
		func(by float64) fault.Fault {
			return at("acceleration settings of the controller", "", "are too low for the axes' moves together",
				number(by)+" times as much on each axis would do")
		}, true})
}

func (s *search) slack(i int, by float64, a rig.Axis) fault.Fault {
	setting := s.m.planner.Axes[i].Acceleration
	f := at("acceleration setting of the controller", number(setting)+" "+a.Unit()+"/s2", "is too low for this move",
		number(setting*by)+" "+a.Unit()+"/s2 would do")
	f.Axis = a.Name
	return f
}

func hasten(m *machine, by float64, which ...int) {
	m.planner.Axes = slices.Clone(m.planner.Axes)
	for _, i := range which {
		m.planner.Axes[i].Acceleration *= by
	}
}

// helpless is what to say where no single thing would help.
func (s *search) helpless() fault.Fault {
	if p := s.m.planner; p.Slowest > 0 && s.best.RoundLate < -hopeless*s.best.RoundPlanned {
		return at("slowest step rate", number(p.Slowest)+" steps/s", "is far faster than the move",
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

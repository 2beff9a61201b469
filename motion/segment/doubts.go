package segment

import (
	"fmt"
	"math"
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
}

// doubts says why the controller cannot follow: each thing that, made better
// alone, would let it.
func (s *search) doubts() fault.List {
	var out fault.List
	for _, r := range s.reliefs() {
		for _, by := range r.factors {
			if s.follows(func(m *machine) { r.apply(m, by) }) {
				out = append(out, r.say(by))
				break
			}
		}
	}
	if len(out) == 0 {
		out = append(out, s.helpless())
	}
	return out.Sorted()
}

// doubtLengths are how many block durations are tried with each relief.
const doubtLengths = 3

// follows tells whether a controller changed so would follow.
func (s *search) follows(change func(*machine)) bool {
	m := *s.m
	change(&m)
	for _, sec := range s.ladder[:min(len(s.ladder), doubtLengths)] {
		if s.work > 2*mostWork {
			return false
		}
		if _, p := s.fit(&m, sec, s.ramps()); p.Follows() {
			return true
		}
	}
	return false
}

var (
	doubling = []float64{2, 4, 8, 16, 32, 64}
	some     = []float64{1.25, 1.5, 2, 3, 4, 6, 8, 12, 16}
	tenfold  = []float64{2, 5, 10, 20, 50, 100}
)

func (s *search) reliefs() []relief {
	c, p := s.m.c, &s.m.planner
	list := []relief{
		{some, hasten, func(by float64) fault.Fault { return s.weakest(by) }},
		{some, func(m *machine, by float64) { m.planner.Blocks = int(math.Ceil(float64(m.planner.Blocks) * by)) },
			func(by float64) fault.Fault {
				return at("look-ahead", fmt.Sprintf("%d blocks", p.Blocks), "is too short to plan this move",
					fmt.Sprintf("a ring of %.0f blocks would do", math.Ceil(float64(p.Blocks)*by)))
			}},
		{tenfold, func(m *machine, by float64) { m.planner.Deviation *= by },
			func(by float64) fault.Fault {
				return at("junction deviation", number(p.Deviation)+" mm", "slows the move down at every corner",
					number(p.Deviation*by)+" mm would do")
			}},
	}
	if c.FeedDecimals > 0 {
		list = append(list, relief{[]float64{1}, func(m *machine, _ float64) { m.c.FeedDecimals = 0 },
			func(float64) fault.Fault {
				return at("feed word", fmt.Sprintf("of %d decimals", c.FeedDecimals), "rounds too coarsely for this move", "more decimals would do")
			}})
	}
	if p.Slowest > 0 {
		list = append(list, relief{doubling, func(m *machine, by float64) { m.planner.Slowest /= by },
			func(by float64) fault.Fault {
				return at("slowest step rate", number(p.Slowest)+" steps/s", "is faster than the move where it is slow",
					fmt.Sprintf("%.0f times as many steps, by microsteps or gearing, would do; so would a faster move at a higher capture rate, or a board that plays a table of steps", by))
			}})
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
			}})
	}
	if p.Link.Reply > 0 {
		list = append(list, relief{[]float64{1}, func(m *machine, _ float64) { m.planner.Link.Reply = 0 },
			func(float64) fault.Fault {
				return at("one line, one answer", "", "takes longer than the lines of this move",
					"a controller whose receive buffer is counted would do")
			}})
	}
	if p.Link.Rate > 0 {
		list = append(list, relief{some, func(m *machine, by float64) { m.planner.Link.Rate *= by },
			func(by float64) fault.Fault {
				return at("segment rate", number(p.Link.Rate)+" lines/s", "is too low for this move",
					number(p.Link.Rate*by)+" lines/s would do")
			}})
	}
	return list
}

func hasten(m *machine, by float64) {
	axes := make([]lookahead.Axis, len(m.planner.Axes))
	for i, a := range m.planner.Axes {
		a.Acceleration *= by
		axes[i] = a
	}
	m.planner.Axes = axes
}

// weakest is the axis whose acceleration setting is least beside what its path
// asks for.
func (s *search) weakest(by float64) fault.Fault {
	worst, share := 0, 0.0
	for i := range s.m.axes {
		peak := math.Abs(s.m.t.Plan().Axes[i].Extremes.Acc.Value)
		if r := peak / s.m.planner.Axes[i].Acceleration; r > share {
			worst, share = i, r
		}
	}
	a, setting := s.m.axes[worst], s.m.planner.Axes[worst].Acceleration
	f := at("acceleration setting of the controller", number(setting)+" "+a.Unit()+"/s2", "is too low for this move",
		number(setting*by)+" "+a.Unit()+"/s2 would do")
	f.Axis = a.Name
	return f
}

// helpless is what to say where no single thing would help.
func (s *search) helpless() fault.Fault {
	f := at("controller", "", "cannot follow this move: it would be "+number(s.best.RoundLate*1000)+" ms late each round", "")
	f.Fit = "a slower move, or a board that plays a table of steps, would do"
	for _, d := range s.best.Axes {
		if math.Abs(d.Worst) > d.Allowed {
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

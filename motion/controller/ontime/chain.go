package ontime

import (
	"cmp"
	"math"
	"slices"
)

// link is one block of a chain as the controller's planner sees it: it gathers
// speed from that of the slower block before, or the corner between them, to
// its own nominal speed, keeps it, and slows down for a slower one after.
type link struct {
	length float64 // mm
	acc    float64 // mm/s2
	enter  float64 // mm/s that the corner before it allows
	cap    float64 // mm/s
	target float64 // s it is to take
	speed  float64 // nominal, mm/s: what is sought; 0 until it is found
}

// chain is a row of blocks whose pace is sought. Before and after are the
// nominal speeds of its neighbours: 0 at rest.
type chain struct {
	links         []link
	before, after float64
	leave         float64 // mm/s that the corner after the last allows
	ring          bool    // the first follows on the last
}

// solve finds nominal speeds with which each block takes its time:
//
//	F*T = d + ((F-u)² + (F-w)²) / 2a
//
// with u and w the speeds at which the block begins and ends (the area of a
// trapezoid of speed). Slower blocks are found first, since a block's ends are
// those of its slower neighbours. What a block cannot make up, or what
// rounding leaves, goes to the faster neighbour.
func (c *chain) solve() {
	order := make([]int, len(c.links))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(c.links[a].mean(), c.links[b].mean())
	})
	for _, i := range order {
		l := &c.links[i]
		if l.length > 0 {
			l.speed = min(l.pace(c.limits(i)), l.cap)
			c.carry(i)
		}
	}
}

func (l *link) mean() float64 { return l.length / l.target }

// limits returns the greatest speeds at which block i may begin and end.
func (c *chain) limits(i int) (in, out float64) {
	n := len(c.links)
	in, out = c.links[i].enter, c.leave
	switch {
	case i > 0:
		in = min(in, c.links[i-1].reach())
	case c.ring:
		in = min(in, c.links[n-1].reach())
	default:
		in = min(in, c.before)
	}
	switch {
	case i+1 < n:
		out = min(c.links[i+1].enter, c.links[i+1].reach())
	case c.ring:
		out = min(c.links[0].enter, c.links[0].reach())
	default:
		out = min(out, c.after)
	}
	return in, out
}

// reach is the speed to or from which a neighbour goes: that of a faster block
// is not found yet and does not matter; a dwell is rest.
func (l *link) reach() float64 {
	if l.length == 0 {
		return 0
	}
	if l.speed == 0 {
		return math.Inf(1)
	}
	return l.speed
}

// pace solves the trapezoid for the nominal speed: none, one or both of the
// ends are slower than it.
func (l *link) pace(in, out float64) float64 {
	lower, upper := min(in, out), max(in, out)
	if f := l.mean(); f <= lower {
		return f
	}
	reach := l.acc * l.target
	// One end: F²/2 - (u + aT)F + u²/2 + ad = 0.
	f := smaller(0.5, lower+reach, lower*lower/2+l.acc*l.length)
	if f <= upper {
		return f
	}
	// Both: F² - (u + w + aT)F + (u² + w²)/2 + ad = 0.
	return smaller(1, lower+upper+reach, (lower*lower+upper*upper)/2+l.acc*l.length)
}

// smaller returns the smaller root of a*x² - b*x + c, or, where there is none,
// the place that comes nearest to one. b and c are positive.
func smaller(a, b, c float64) float64 {
	root := b*b - 4*a*c
	if root <= 0 {
		return b / (2 * a)
	}
	return 2 * c / (b + math.Sqrt(root)) // without cancellation
}

// seconds is how long the block takes between the given speeds at its ends.
func (l *link) seconds(in, out float64) float64 {
	f := l.speed
	up, down := max(f-in, 0), max(f-out, 0)
	return (l.length + (up*up+down*down)/(2*l.acc)) / f
}

// carry hands what block i takes too long or too short to a neighbour that has
// not been found yet.
func (c *chain) carry(i int) {
	over := c.links[i].seconds(c.limits(i)) - c.links[i].target
	for _, k := range [...]int{i + 1, i - 1} {
		if c.ring {
			k = (k + len(c.links)) % len(c.links)
		}
		if k >= 0 && k < len(c.links) && c.links[k].speed == 0 && c.links[k].length > 0 {
			c.links[k].target = max(c.links[k].target-over, c.links[k].target/2)
			return
		}
	}
}

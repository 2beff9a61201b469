package virtual

import "math"

// shaft is the motors: the slices cut ahead, the one that runs, and where the
// steps have brought the machine.
type shaft struct {
	queue  []slice
	first  int // of queue, the one that runs
	runs   bool
	end    instant
	count  [maxAxes]int64 // steps taken, as the board counts
	offset vector         // what the machine stands at when count is 0, units
	went   bool           // the slice follows on another without a rest
	over   instant        // when the last slice was
	every  instant        // its interval
	trips  bool           // the slice ends on a limit switch
	behind [maxAxes]behind
}

// ends returns when the slice that runs is over, or never.
func (s *shaft) ends() instant {
	if !s.runs {
		return never
	}
	return s.end
}

func (s *shaft) waiting() int { return len(s.queue) - s.first }

// push adds a slice. What has run is dropped first, so that the queue does not
// grow with the take.
func (s *shaft) push(c slice) {
	s.queue = append(s.queue[:copy(s.queue, s.queue[s.first:])], c)
	s.first = 0
}

func (s *shaft) pop() { s.first++ }

// ahead returns by how much the first interval after a rest is short: a counter
// of 16 bits goes on counting, round and round by the last interval, while the
// motors stand. Where it has not come round yet, the interval is as much longer.
func (s *shaft) ahead(now, every instant, t Timer) instant {
	if t.Longest == 0 || s.every == 0 {
		return 0
	}
	since := now - s.over
	if since < s.every {
		return since - s.every
	}
	if ahead := since % s.every; ahead < every {
		return ahead
	}
	return since%s.every - lasting(float64(t.Longest+1)/t.Hz)
}

func (s *shaft) clear() {
	s.queue, s.first, s.runs, s.trips = s.queue[:0], 0, false, false
	for i := range s.behind {
		s.behind[i].speed, s.behind[i].lag = 0, 0
	}
}

// stepsAfter returns how many steps of an axis are taken when u eighths of a
// step event of the block are done. Each axis has a counter that begins at half a
// block's events, gains its steps an event, and steps when it is beyond all events.
func (c *slice) stepsAfter(axis int, u int64) int64 {
	n, whole := c.steps[axis], c.events<<finest
	switch {
	case n == 0:
		return 0
	case c.even && (n == c.events || n == -c.events):
		return n * u / whole
	case c.even && n < 0:
		return -((whole/2 - n*u) / whole)
	case c.even:
		return (whole/2 + n*u) / whole
	case n < 0:
		return -((whole/2 - n*u - 1) / whole)
	}
	return (whole/2 + n*u - 1) / whole
}

// eighths returns how far the block is after k pulses of the slice.
func (c *slice) eighths(k int64) int64 { return c.from + k<<(finest-c.beat.level) }

// lasts returns how long the slice runs.
func (c *slice) lasts() instant { return c.beat.every*instant(c.pulses) + c.rest - c.lead }

// pulsesBy returns how many pulses have come by an instant.
func (c *slice) pulsesBy(now instant) int64 {
	if c.beat.every == 0 {
		return c.pulses
	}
	return max(0, min(c.pulses, int64((now-c.starts+c.lead)/c.beat.every)))
}

// countsAfter returns the step counts after k pulses.
func (c *slice) countsAfter(axes int, k int64) [maxAxes]int64 {
	out := c.begins
	u := c.eighths(k)
	for i := range axes {
		out[i] += c.stepsAfter(i, u)
	}
	return out
}

// load starts the next slice, if there is one.
func (r *Rig) load() {
	s := &r.shaft
	s.runs = false
	if s.waiting() == 0 {
		return
	}
	c := &s.queue[s.first]
	c.starts = r.now
	if r.now-s.over > lasting(swingTime) {
		r.stands()
	}
	if !s.went && r.player == nil {
		c.lead = s.ahead(r.now, c.beat.every, r.o.Timer)
	}
	s.went = true
	r.watchSwitches(c)
	s.runs, s.end = true, r.now+c.lasts()
	r.note(c)
}

// finishSlice brings the machine to the end of the slice and goes on.
func (r *Rig) finishSlice() {
	s := &r.shaft
	s.over, s.every = r.now, s.queue[s.first].beat.every
	began := s.count
	s.count = s.queue[s.first].countsAfter(len(r.o.Axes), s.queue[s.first].pulses)
	r.follows(&s.queue[s.first], began)
	s.runs = false
	s.pop()
	if s.trips {
		r.tripped()
		return
	}
	if r.player == nil {
		r.prepare()
	}
	if s.waiting() > 0 {
		r.load()
		return
	}
	s.went = false
	if r.player != nil {
		r.player.rested()
		return
	}
	r.settleMotors()
}

// halt stops the motors at once, where they are. At speed they slip: by half
// the way they would have needed to stop properly, which the board does not
// know of.
func (r *Rig) halt() {
	s := &r.shaft
	if s.runs {
		c := &s.queue[s.first]
		k := c.pulsesBy(r.now)
		s.count = c.countsAfter(len(r.o.Axes), k)
		r.slip(c)
		for i := range r.o.Axes {
			s.behind[i].load = r.place(i, s.count[i])
		}
		r.record.cut(r.now, k)
	}
	s.clear()
}

// slippage is the share of the stopping way that a motor slips when its pulses
// end at speed.
const slippage = 0.5

func (r *Rig) slip(c *slice) {
	if c.pulses == 0 || c.beat.every == 0 {
		return
	}
	perSecond := 1 / (c.beat.every.seconds() * float64(int64(1)<<c.beat.level) * float64(c.events))
	for i := range r.o.Axes {
		a := &r.o.Axes[i]
		v := float64(c.steps[i]) * perSecond / a.StepsPerUnit
		r.shaft.offset[i] += slippage * v * math.Abs(v) / (2 * a.Acceleration)
	}
}

// counts returns the step counts as they are now.
func (r *Rig) counts() [maxAxes]int64 {
	s := &r.shaft
	if !s.runs {
		return s.count
	}
	c := &s.queue[s.first]
	return c.countsAfter(len(r.o.Axes), c.pulsesBy(r.now))
}

// setCount makes the board count an axis as standing at n; the machine stays
// where it is.
func (r *Rig) setCount(axis int, n int64) {
	a := &r.o.Axes[axis]
	r.shaft.offset[axis] += a.scale() * (a.unitsAt(r.shaft.count[axis]) - a.unitsAt(n))
	r.shaft.count[axis] = n
}

package virtual

import "math"

// play begins the next row, or comes to rest when there is none.
func (p *player) play() {
	if p.slow == holdRows || p.first == len(p.rows) {
		p.stop()
		return
	}
	r := p.rows[p.first]
	p.first++
	if p.first > len(p.rows)/2 && p.first > holdRows {
		p.rows = p.rows[:copy(p.rows, p.rows[p.first:])]
		p.first = 0
	}
	p.rig.stats.Blocks++
	p.rig.shaft.push(p.slice(r, p.lasts()))
	p.rig.load()
}

// stop is the rest after the last row there is.
func (p *player) stop() {
	switch {
	case p.state == slowingDown:
		p.slow, p.fast = 0, 0
		p.enter(heldStill)
	case p.over:
		p.enter(ended)
	default:
		p.rig.stats.Underruns++
		p.enter(starved)
	}
}

// lasts returns how long the next row lasts: sqrt(128/(129-k)) ticks for the k-th
// after a hold, sqrt(128/k) for the k-th after a resume, else one.
func (p *player) lasts() instant {
	switch {
	case p.state == slowingDown:
		p.slow++
		return p.stretched(holdRows + 1 - p.slow)
	case p.fast > 0:
		k := p.fast
		p.fast = (p.fast + 1) % (holdRows + 1)
		return p.stretched(k)
	}
	return p.tick
}

// stretched returns a tick at the speed of k rows away from rest.
func (p *player) stretched(k int) instant {
	return lasting(p.tick.seconds() * math.Sqrt(holdRows/float64(k)))
}

// slice spreads the steps of a row evenly over its time.
func (p *player) slice(r row, lasts instant) slice {
	s := slice{begins: p.rig.shaft.count, even: true}
	for i := range p.axes {
		n := int64(r[i])
		s.steps[i] = n
		s.events = max(s.events, n, -n)
	}
	if s.events == 0 {
		s.rest = lasts
		return s
	}
	s.beat.level = finest
	s.pulses = s.events << finest
	s.beat.every = lasts / instant(s.pulses)
	s.rest = lasts - s.lasts()
	s.drift(&p.rig.o)
	return s
}

// drift stretches a slice by what the board's clock is slow.
func (c *slice) drift(o *Options) { c.beat.every, c.rest = o.drift(c.beat.every), o.drift(c.rest) }

// rested is called when a row is over.
func (p *player) rested() {
	p.played++
	if p.moves() {
		p.play()
	}
}

// hold slows down. On the way up from another hold it begins where that is.
func (p *player) hold() {
	if p.state != playing {
		return
	}
	if p.fast > 0 {
		p.slow = holdRows + 1 - p.fast
	}
	p.fast = 0
	p.enter(slowingDown)
}

func (p *player) resume() {
	if p.state != heldStill {
		return
	}
	p.slow, p.fast = 0, 1
	p.enter(playing)
	p.play()
}

// abort stops at once.
func (p *player) abort() {
	p.rig.halt()
	p.forget()
	p.slow, p.fast = 0, 0
	p.enter(aborted)
}

// trip is a limit switch that opens.
func (p *player) trip() {
	p.rig.halt()
	p.forget()
	p.slow, p.fast = 0, 0
	p.rig.stats.Alarms++
	p.enter(inAlarm)
}

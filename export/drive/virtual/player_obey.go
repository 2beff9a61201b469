package virtual

import (
	"encoding/binary"
	"math"
)

// take obeys a frame.
func (p *player) take(f frame) {
	switch f.kind {
	case '?':
		p.report()
	case '!':
		p.hold()
	case '~':
		p.resume()
	case '^':
		p.abort(aborted)
	case 'H':
		if p.moves() {
			p.refuse(reasonNotNow)
			return
		}
		p.next = 0
		p.rig.allOff()
		p.hello()
	case 'B', 'P', 'R', 'G', 'E', 'O':
		p.ordered(f)
	}
}

// ordered obeys a frame of the sequence.
func (p *player) ordered(f frame) {
	m := &p.rig.mishaps
	m.lines++
	p.rig.stats.Lines++
	switch back := p.next - f.sequence; {
	case back > 0 && back <= repeats:
		p.acknowledge()
		return
	case back != 0:
		p.refuse(reasonLost)
		return
	}
	reason := p.obey(f)
	if bad, ok := m.strikes(RefuseLine, m.lines); ok {
		reason = bad.Value
	}
	if reason != 0 {
		p.refuse(reason)
		return
	}
	p.next++
	p.acknowledge()
}

// obey carries out an ordered frame, or returns a reason why not.
func (p *player) obey(f frame) int {
	if p.state == inAlarm && f.kind != 'P' {
		return reasonAlarm
	}
	switch f.kind {
	case 'B':
		return p.begin(f.payload)
	case 'P':
		return p.place(f.payload)
	case 'R':
		return p.append(f.payload)
	case 'G':
		return p.start()
	case 'O':
		return p.outputs(f.payload)
	}
	if p.tick == 0 || p.over || p.state > heldStill {
		return reasonNotNow
	}
	p.over = true
	return 0
}

func (p *player) begin(payload []byte) int {
	if p.moves() {
		return reasonNotNow
	}
	if len(payload) != 5 {
		return reasonPayload
	}
	tick, axes := binary.LittleEndian.Uint32(payload), int(payload[4])
	if tick < playerShortest || axes < 1 || axes > len(p.rig.o.Axes) {
		return reasonPayload
	}
	p.tick, p.axes = instant(tick)*nanosecond, axes
	p.forget()
	p.over, p.played, p.slow, p.fast = false, 0, 0, 0
	p.enter(standingBy)
	return 0
}

func (p *player) forget() { p.rows, p.first = p.rows[:0], 0 }

func (p *player) place(payload []byte) int {
	if p.moves() {
		return reasonNotNow
	}
	if len(payload) != 4*p.axes {
		return reasonPayload
	}
	for i := range p.axes {
		p.rig.setCount(i, int64(int32(binary.LittleEndian.Uint32(payload[4*i:]))))
	}
	if p.state == inAlarm {
		p.enter(standingBy)
	}
	return 0
}

// append stores rows.
func (p *player) append(payload []byte) int {
	switch {
	case p.tick == 0 || p.over || p.state > heldStill:
		return reasonNotNow
	case len(payload) == 0 || len(payload)%p.axes != 0:
		return reasonPayload
	case len(payload)/p.axes > p.room():
		return reasonNoRoom
	}
	for ; len(payload) > 0; payload = payload[p.axes:] {
		var r row
		for i := range p.axes {
			r[i] = int8(payload[i])
		}
		p.rows = append(p.rows, r)
	}
	p.rig.stats.Queue = max(p.rig.stats.Queue, playerRows-p.room())
	return 0
}

// start plays the rows.
func (p *player) start() int {
	if p.tick == 0 || p.state != standingBy {
		return reasonNotNow
	}
	p.rig.stats.Starts++
	p.enter(playing)
	p.play()
	return 0
}

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
		p.rig.allOff()
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

// abort stops at once, and is then aborted or in an alarm.
func (p *player) abort(then playerState) {
	p.rig.halt()
	p.rig.allOff()
	p.forget()
	p.slow, p.fast = 0, 0
	p.enter(then)
}

// trip is a limit switch that opens.
func (p *player) trip() {
	p.rig.stats.Alarms++
	p.abort(inAlarm)
}

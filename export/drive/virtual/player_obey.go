package virtual

import "encoding/binary"

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
		p.abort()
	case 'H':
		if p.moves() {
			p.refuse(reasonNotNow)
			return
		}
		p.next = 0
		p.hello()
	case 'B', 'P', 'R', 'G', 'E':
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

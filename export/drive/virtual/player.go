package virtual

import "encoding/binary"

// playerState is what a step player does, by its number on the wire.
type playerState byte

const (
	standingBy playerState = iota
	playing
	slowingDown
	heldStill
	ended
	starved
	aborted
	inAlarm
)

// Reasons for which a player does not obey.
const (
	reasonLost    = 1
	reasonNoRoom  = 2
	reasonPayload = 3
	reasonNotNow  = 4
	reasonAlarm   = 5
)

const (
	playerVersion  = 1
	playerRows     = 1024
	playerShortest = 50_000 // ns
	playerName     = "virtual"
	// holdRows is over how many rows a player slows down, and speeds up.
	holdRows = 128
	// repeats is how many sequence numbers back a frame counts as a repeat.
	repeats = 128
)

// row is the steps of one tick.
type row [maxAxes]int8

// player is a board that plays rows of steps.
type player struct {
	rig    *Rig
	until  instant // of booting, or never
	reader frameReader
	state  playerState
	next   byte // sequence number it expects
	tick   instant
	axes   int
	rows   []row
	first  int
	over   bool // E has come
	played uint32
	slow   int // while slowing down: rows since the hold
	fast   int // while speeding up: rows since the resume, 0 = at speed
}

func newPlayer(r *Rig) *player {
	p := &player{rig: r, axes: len(r.o.Axes), until: never}
	if r.o.ResetsOnOpen {
		p.until = r.now + lasting(r.o.BootSeconds)
	} else {
		p.hello()
	}
	return p
}

// restart is a drop in power.
func (p *player) restart() {
	p.rig.halt()
	for i := range p.rig.o.Axes {
		p.rig.setCount(i, 0)
	}
	*p = player{rig: p.rig, axes: len(p.rig.o.Axes), until: p.rig.now + lasting(p.rig.o.BootSeconds)}
}

// work ends the booting.
func (p *player) work() {
	if p.until <= p.rig.now {
		p.until = never
		p.hello()
	}
}

func (p *player) hear(b byte) {
	if p.until != never {
		p.rig.stats.Deaf++
		return
	}
	p.reader.add(p.rig.now, b, p.take)
}

// room returns how many more rows go in.
func (p *player) room() int { return playerRows - (len(p.rows) - p.first) }

func (p *player) moves() bool { return p.state == playing || p.state == slowingDown }

func (p *player) tell(kind byte, payload []byte) {
	p.rig.send(string(frame{sequence: p.next, kind: kind, payload: payload}.append(nil)))
}

func (p *player) hello() {
	b := binary.LittleEndian.AppendUint16([]byte{playerVersion, byte(len(p.rig.o.Axes))}, playerRows)
	b = binary.LittleEndian.AppendUint32(b, playerShortest)
	p.tell('h', append(b, playerName...))
}

// acknowledge tells what has been obeyed.
func (p *player) acknowledge() {
	m := &p.rig.mishaps
	m.oks++
	if _, lost := m.strikes(LoseOK, m.oks); lost {
		return
	}
	room := binary.LittleEndian.AppendUint16(nil, uint16(p.room()))
	p.tell('a', room)
	if _, doubled := m.strikes(DoubleOK, m.oks); doubled {
		p.tell('a', room)
	}
}

func (p *player) refuse(reason int) {
	p.rig.stats.Errors++
	p.tell('n', binary.LittleEndian.AppendUint16([]byte{byte(reason)}, uint16(p.room())))
}

// report sends a status.
func (p *player) report() {
	b := binary.LittleEndian.AppendUint16([]byte{byte(p.state)}, uint16(p.room()))
	b = binary.LittleEndian.AppendUint32(b, p.played)
	counts := p.rig.counts()
	for i := range p.axes {
		b = binary.LittleEndian.AppendUint32(b, uint32(int32(counts[i])))
	}
	p.tell('s', b)
}

// enter changes the state, and says so.
func (p *player) enter(s playerState) {
	if p.state != s {
		p.state = s
		p.report()
	}
}

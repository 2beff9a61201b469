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
	dark   instant // when it switches all outputs off by itself, or never
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
	p := &player{rig: r, axes: len(r.o.Axes), until: never, dark: never}
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
	p.rig.allOff()
	for i := range p.rig.o.Axes {
		p.rig.setCount(i, 0)
	}
	*p = player{rig: p.rig, axes: len(p.rig.o.Axes), until: p.rig.now + lasting(p.rig.o.BootSeconds), dark: never}
}

// work ends the booting, and the time of what is on.
func (p *player) work() {
	if p.dark <= p.rig.now {
		p.dark = never
		p.rig.allOff()
	}
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
	version := byte(1)
	if p.rig.o.Numbered > 0 {
		version = 2
	}
	b := binary.LittleEndian.AppendUint16([]byte{version, byte(len(p.rig.o.Axes))}, playerRows)
	b = binary.LittleEndian.AppendUint32(b, playerShortest)
	if version > 1 {
		b = append(b, byte(p.rig.o.Numbered))
	}
	p.tell('h', append(b, playerName...))
}

// acknowledge tells what has been obeyed.
func (p *player) acknowledge() {
	room := binary.LittleEndian.AppendUint16(nil, uint16(p.room()))
	p.rig.ok(func() { p.tell('a', room) })
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

// The frames of the step player's protocol, read and written from
// its page (export/drive/stepplayer/PROTOCOL.md) and nothing else.
const (
	frameStart   = 0x7e
	frameRest    = 5 // bytes of a frame beside start and payload
	frameLongest = 240
	// frameStale is when a frame that stops half-way is given up.
	frameStale = second / 10
)

// crc16 is CRC-16/IBM-3740, bit by bit as the page has it.
func crc16(p []byte) uint16 {
	crc := uint16(0xffff)
	for _, b := range p {
		crc ^= uint16(b) << 8
		for range 8 {
			top := crc&0x8000 != 0
			crc <<= 1
			if top {
				crc ^= 0x1021
			}
		}
	}
	return crc
}

// frame is one frame, without start and check.
type frame struct {
	sequence byte
	kind     byte
	payload  []byte
}

// append adds the frame as it goes over the wire.
func (f frame) append(out []byte) []byte {
	at := len(out) + 1
	out = append(out, frameStart, byte(len(f.payload)), f.sequence, f.kind)
	out = append(out, f.payload...)
	return binary.LittleEndian.AppendUint16(out, crc16(out[at:]))
}

// frameReader finds frames among bytes.
type frameReader struct {
	held []byte
	last instant // when the last byte came
}

// add takes a byte, and calls each with every frame that is now whole.
func (r *frameReader) add(now instant, b byte, each func(frame)) {
	if len(r.held) > 0 && now-r.last >= frameStale {
		for len(r.held) > 0 {
			r.drop(1)
			r.scan(each)
		}
	}
	r.last = now
	r.held = append(r.held, b)
	r.scan(each)
}

// scan takes whole frames off the front.
func (r *frameReader) scan(each func(frame)) {
	for {
		for len(r.held) > 0 && r.held[0] != frameStart {
			r.drop(1)
		}
		if len(r.held) < 2 {
			return
		}
		size := int(r.held[1])
		if size > frameLongest {
			r.drop(1)
			continue
		}
		whole := 1 + frameRest + size
		if len(r.held) < whole {
			return
		}
		f := r.held[:whole]
		if binary.LittleEndian.Uint16(f[whole-2:]) != crc16(f[1:whole-2]) {
			r.drop(1)
			continue
		}
		got := frame{sequence: f[2], kind: f[3], payload: append([]byte(nil), f[4:whole-2]...)}
		r.drop(whole)
		each(got)
	}
}

func (r *frameReader) drop(n int) { r.held = r.held[:copy(r.held, r.held[n:])] }

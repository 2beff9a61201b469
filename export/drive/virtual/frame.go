package virtual

import "encoding/binary"

// The frames of the step player's protocol, version 1, read and written from
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

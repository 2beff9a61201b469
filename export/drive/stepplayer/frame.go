// Package stepplayer is the framing of a board that plays rows of steps and
// knows no G-code. PROTOCOL.md, beside it, is its definition.
package stepplayer

import (
	"bytes"
	"encoding/binary"
	"fmt"
)

const (
	start  = 0x7e
	around = 6 // bytes of a frame besides its payload
	before = 4 // of them before the payload

	// MaxPayload is the longest payload, in bytes. A frame of 240 takes 21 ms
	// at 115200 baud, which bounds how long an immediate one may have to wait.
	MaxPayload = 240
)

// Type is the letter that says what a frame is.
type Type byte

// The types of frame.
const (
	Hello  Type = 'H'
	Begin  Type = 'B'
	Place  Type = 'P'
	Rows   Type = 'R'
	Go     Type = 'G'
	End    Type = 'E'
	Switch Type = 'O'
	Ask    Type = '?'
	Hold   Type = '!'
	Resume Type = '~'
	Abort  Type = '^'

	HelloAnswer Type = 'h'
	Ack         Type = 'a'
	Refused     Type = 'n'
	StatusNow   Type = 's'
)

// Frame is one message, in either direction.
type Frame struct {
	Seq     byte
	Type    Type
	Payload []byte
}

// Append appends the frame's bytes to buf. It panics on a payload of more than
// MaxPayload bytes.
func (f Frame) Append(buf []byte) []byte {
	if len(f.Payload) > MaxPayload {
		panic(fmt.Sprintf("stepplayer: a payload of %d bytes; a frame holds %d", len(f.Payload), MaxPayload))
	}
	from := len(buf) + 1
	buf = append(buf, start, byte(len(f.Payload)), f.Seq, byte(f.Type))
	buf = append(buf, f.Payload...)
	return binary.LittleEndian.AppendUint16(buf, Check(buf[from:]))
}

// Check is CRC-16/IBM-3740: polynomial 0x1021, initial value 0xffff, nothing
// reflected, check value 0x29b1 (G. Cook, Catalogue of parametrised CRC
// algorithms).
func Check(data []byte) uint16 {
	crc := uint16(0xffff)
	for _, b := range data {
		crc = crc<<8 ^ table[byte(crc>>8)^b]
	}
	return crc
}

var table = makeTable()

func makeTable() (out [256]uint16) {
	const polynomial = 0x1021
	for i := range out {
		crc := uint16(i) << 8
		for range 8 {
			top := crc >> 15
			crc = crc<<1 ^ top*polynomial
		}
		out[i] = crc
	}
	return out
}

// Reader finds frames in a stream of bytes. What is not a frame is dropped,
// one start byte at a time, so that a damaged frame costs nothing but itself.
// The zero value is ready to use.
type Reader struct {
	held    []byte
	Dropped int // bytes so far that belonged to no frame
}

// Add gives the reader more bytes.
func (r *Reader) Add(data []byte) { r.held = append(r.held, data...) }

// Next returns the next whole frame, whose payload is its own, or false when
// more bytes are needed.
func (r *Reader) Next() (Frame, bool) {
	for {
		r.seek()
		if len(r.held) < before {
			return Frame{}, false
		}
		n := int(r.held[1])
		if n <= MaxPayload && len(r.held) < n+around {
			return Frame{}, false
		}
		if n > MaxPayload || !r.sound(n) {
			r.drop(1)
			continue
		}
		f := Frame{Seq: r.held[2], Type: Type(r.held[3]), Payload: bytes.Clone(r.held[before : before+n])}
		r.held = r.held[:copy(r.held, r.held[n+around:])]
		return f, true
	}
}

// sound tells whether the frame at hand, of n bytes of payload, has its check.
func (r *Reader) sound(n int) bool {
	return Check(r.held[1:before+n]) == binary.LittleEndian.Uint16(r.held[before+n:])
}

// seek drops what comes before a start byte.
func (r *Reader) seek() {
	i := bytes.IndexByte(r.held, start)
	if i < 0 {
		i = len(r.held)
	}
	r.drop(i)
}

func (r *Reader) drop(n int) {
	r.Dropped += n
	r.held = r.held[:copy(r.held, r.held[n:])]
}

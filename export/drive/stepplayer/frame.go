// Package stepplayer is the framing of a board that plays rows of steps and
// knows no G-code. PROTOCOL.md, beside it, is its definition.
package stepplayer

import (
	"encoding/binary"
	"fmt"
)

const (
	start    = 0x7e
	around   = 6 // bytes of a frame besides its payload
	before   = 4 // of them before the payload
	checkLen = 2

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
	Ask    Type = '?'
	Hold   Type = '!'
	Resume Type = '~'
	Abort  Type = '^'

	HelloAnswer Type = 'h'
	Ack         Type = 'a'
	Refused     Type = 'n'
	StatusNow   Type = 's'
)

// Ordered tells whether the player obeys frames of the type in sequence.
func (t Type) Ordered() bool {
	switch t {
	case Begin, Place, Rows, Go, End:
		return true
	}
	return false
}

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

package stepplayer

import (
	"bytes"
	"encoding/binary"
)

// Reader finds frames in a stream of bytes. What is not a frame is dropped,
// one start byte at a time, so that a damaged frame costs nothing but itself.
// The zero value is ready to use.
type Reader struct {
	held    []byte
	Dropped int // bytes so far that belonged to no frame
}

// Add gives the reader more bytes.
func (r *Reader) Add(data []byte) { r.held = append(r.held, data...) }

// Waiting tells whether part of a frame is there and the rest is not.
func (r *Reader) Waiting() bool { return len(r.held) > 0 }

// GiveUp drops the start of a frame whose rest did not come in time.
func (r *Reader) GiveUp() {
	if len(r.held) > 0 {
		r.drop(1)
	}
}

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

package click

import (
	"encoding/binary"
	"fmt"
	"math"
	"strings"

	"seamrail/motion/base/exact"
)

const (
	pcm  = 1  // the format tag of linear samples
	bits = 16 // of a sample of one channel
)

// header returns all that stands before the samples.
func header(samples exact.Rat, note []byte) ([]byte, error) {
	data := samples.Mul(exact.Int(frame))
	before := 4 + chunkHead + formatSize + chunkHead + len(note) + chunkHead // of the outer chunk
	most := exact.Int(math.MaxUint32 - int64(before))
	if most.Less(data) {
		hours := most.Quo(exact.Int(frame * Rate * 3600))
		return nil, fmt.Errorf("a click track of %s hours is more than a WAV file holds, %s hours: fewer rounds would do",
			samples.Quo(exact.Int(Rate*3600)).Decimal(1), hours.Decimal(1))
	}
	size := uint32(data.Whole())
	out := chunk(nil, "RIFF", uint32(before)+size)
	out = chunk(append(out, "WAVE"...), "fmt ", formatSize)
	out = binary.LittleEndian.AppendUint16(out, pcm)
	out = binary.LittleEndian.AppendUint16(out, channels)
	out = binary.LittleEndian.AppendUint32(out, Rate)
	out = binary.LittleEndian.AppendUint32(out, Rate*frame)
	out = binary.LittleEndian.AppendUint16(out, frame)
	out = binary.LittleEndian.AppendUint16(out, bits)
	out = append(chunk(out, "LIST", uint32(len(note))), note...)
	return chunk(out, "data", size), nil
}

const (
	chunkHead  = 8
	formatSize = 16
)

// chunk begins a chunk.
func chunk(out []byte, name string, size uint32) []byte {
	return binary.LittleEndian.AppendUint32(append(out, name...), size)
}

// comment is the body of an INFO list with one comment: text that ends in a
// zero, filled up to an even length.
func comment(lines []string) []byte {
	text := append([]byte(strings.Join(lines, "\n")), 0)
	out := append(chunk([]byte("INFO"), "ICMT", uint32(len(text))), text...)
	if len(text)%2 == 1 {
		out = append(out, 0)
	}
	return out
}

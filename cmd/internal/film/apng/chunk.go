// Package apng reads animated PNG files picture by picture, as rows of luma. Each picture is
// made a PNG of its own, which the standard library reads, and laid on those before.
//
// Source: W3C, Portable Network Graphics (PNG) Specification, third edition (2025): 5.3
// (chunks), 11.3.6 (acTL, fcTL, fdAT; dispose and blend). Numbers of clauses here and below are
// from memory: no text was at hand.
package apng

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"io"
)

// Magic is what every PNG begins with (5.2).
const Magic = "\x89PNG\r\n\x1a\n"

const (
	headSize = 8 // length and name
	sumSize  = 4
	// maxLength is the greatest length of a chunk (5.3).
	maxLength = 1<<31 - 1
	// maxSmall is how long a chunk may be that is kept whole: the longest, a palette,
	// has 768 bytes (11.2.2).
	maxSmall = 768
)

// head is that of a chunk.
type head struct {
	length int64
	name   string
}

func parseHead(b []byte) (head, error) {
	h := head{int64(binary.BigEndian.Uint32(b)), string(b[4:headSize])}
	if h.length > maxLength {
		return h, fmt.Errorf("chunk %q of %d bytes; at most %d can be", h.name, h.length, maxLength)
	}
	return h, nil
}

// chunks reads a file chunk by chunk, and holds each to its sum.
type chunks struct {
	in io.Reader
	at int64 // bytes so far
}

// start reads the signature.
func (c *chunks) start() error {
	b := make([]byte, len(Magic))
	if err := c.fill(b); err != nil {
		return err
	}
	if string(b) != Magic {
		return fmt.Errorf("it does not begin as a PNG does")
	}
	return nil
}

func (c *chunks) fill(b []byte) error {
	n, err := io.ReadFull(c.in, b)
	c.at += int64(n)
	return err
}

// next reads the head of a chunk. Its error is io.EOF where the file ends before it.
func (c *chunks) next() (head, error) {
	var b [headSize]byte
	if err := c.fill(b[:]); err != nil {
		return head{}, err
	}
	return parseHead(b[:])
}

// body reads what a chunk holds behind what is there already, and its sum. The memory that
// it takes grows with what comes, not with what the head says.
func (c *chunks) body(h head, into *bytes.Buffer) error {
	from := into.Len()
	n, err := io.CopyN(into, c.in, h.length)
	c.at += n
	var sum [sumSize]byte
	if err == nil {
		err = c.fill(sum[:])
	}
	if err != nil {
		return named(err)
	}
	got := crc32.Update(crc32.ChecksumIEEE([]byte(h.name)), crc32.IEEETable, into.Bytes()[from:])
	if got != binary.BigEndian.Uint32(sum[:]) {
		return fmt.Errorf("chunk %s that ends at byte %d is damaged: its sum does not match", h.name, c.at)
	}
	return nil
}

// small reads a chunk that is kept whole.
func (c *chunks) small(h head) ([]byte, error) {
	if h.length > maxSmall {
		return nil, fmt.Errorf("chunk %s at byte %d has %d bytes; at most %d can be", h.name, c.at, h.length, maxSmall)
	}
	var b bytes.Buffer
	err := c.body(h, &b)
	return b.Bytes(), err
}

// pass reads over a chunk.
func (c *chunks) pass(h head) error {
	n, err := io.CopyN(io.Discard, c.in, h.length+sumSize)
	c.at += n
	return named(err)
}

// named is an end where none should be by that name.
func named(err error) error {
	if err == io.EOF {
		return io.ErrUnexpectedEOF
	}
	return err
}

// put writes a chunk.
func put(into *bytes.Buffer, name string, data []byte) {
	var b [sumSize]byte
	binary.BigEndian.PutUint32(b[:], uint32(len(data)))
	into.Write(b[:])
	from := into.Len()
	into.WriteString(name)
	into.Write(data)
	binary.BigEndian.PutUint32(b[:], crc32.ChecksumIEEE(into.Bytes()[from:]))
	into.Write(b[:])
}

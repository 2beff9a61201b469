package takelog

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"runtime"
	"slices"
	"sync"
)

// blockSize is how much of a log is read at a time, some hundred lines: as many
// blocks are held as there are processors, and a few more.
const blockSize = 1 << 16

// longestLine is more than anybody notes of a take. What is longer is no record,
// and is not held to find that out.
const longestLine = 1 << 20

// tooLong stands for a line that is.
var tooLong = []byte("a line that is too long")

// line is one as it was understood.
type line struct {
	rec Record
	ok  bool
}

// block is whole lines, and what they say.
type block struct {
	text  []byte
	lines []line
	done  chan any // told once the lines are understood: nil, or what panicked on the way
}

// records calls f with each record of a log in order, and for each line that is none.
// Blocks of lines are understood at the same time, on all processors. A panic on the
// way is the caller's, who may have a rig to hold.
func records(r io.Reader, f func(rec Record, ok bool)) error {
	ordered := make(chan *block, runtime.GOMAXPROCS(0))
	used := sync.Pool{New: func() any { return &block{done: make(chan any, 1)} }}
	var err error
	var panicked any
	go func() {
		defer close(ordered)
		defer func() { panicked = recover() }()
		err = blocks(r, func() *block { return used.Get().(*block) }, func(b *block) {
			ordered <- b
			go b.understand()
		})
	}()
	for b := range ordered {
		if p := <-b.done; p != nil {
			panic(p)
		}
		for i := range b.lines {
			f(b.lines[i].rec, b.lines[i].ok)
		}
		used.Put(b)
	}
	if panicked != nil {
		panic(panicked)
	}
	return err
}

// understand finds out what the lines of a block say. Blank ones say nothing.
func (b *block) understand() {
	defer func() { b.done <- recover() }()
	d := &decoder{map[string]string{}}
	b.lines = b.lines[:0]
	for t := range bytes.Lines(b.text) {
		if t = bytes.TrimRight(t, "\r\n"); len(bytes.TrimSpace(t)) == 0 {
			continue
		}
		b.lines = append(b.lines, line{})
		l := &b.lines[len(b.lines)-1]
		l.ok = d.decode(t, &l.rec)
	}
}

// blocks fills blocks with whole lines and passes them on. A line that is too long is
// tooLong in one.
func blocks(r io.Reader, empty func() *block, full func(*block)) error {
	var rest []byte
	skips := false // amid a line that is too long
	for {
		b := empty()
		text := append(b.text[:0], rest...)
		text, err := fill(r, text, len(rest)+blockSize)
		over := errors.Is(err, io.EOF)
		if skips {
			var found bool
			_, text, found = bytes.Cut(text, []byte("\n"))
			skips = !found
		}
		end := bytes.LastIndexByte(text, '\n') + 1
		if over {
			end = len(text)
		}
		rest = append(rest[:0], text[end:]...)
		b.text = text[:end]
		if len(rest) > longestLine {
			b.text = append(b.text, tooLong...)
			rest, skips = rest[:0], true
		}
		full(b)
		switch {
		case over:
			return nil
		case err != nil:
			return fmt.Errorf("reading the take log: %w", err)
		}
	}
}

// fill reads on until there are so many bytes.
func fill(r io.Reader, text []byte, size int) ([]byte, error) {
	n := len(text)
	text = slices.Grow(text, size-n)[:size]
	for n < size {
		more, err := r.Read(text[n:])
		n += more
		if err != nil {
			return text[:n], err
		}
	}
	return text, nil
}

package takelog

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"runtime"
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

// records calls f with each record of a log in order, and for each line that is none.
// Blocks of lines are understood at the same time, on all processors.
func records(r io.Reader, f func(rec Record, ok bool)) error {
	ordered := make(chan chan []line, runtime.GOMAXPROCS(0))
	var err error
	go func() {
		defer close(ordered)
		err = blocks(r, func(text []byte) {
			done := make(chan []line, 1)
			ordered <- done
			go func() { done <- understood(text) }()
		})
	}()
	for done := range ordered {
		for _, l := range <-done {
			f(l.rec, l.ok)
		}
	}
	return err
}

// understood is what the lines of a block say. Blank ones say nothing.
func understood(text []byte) []line {
	d := &decoder{map[string]string{}}
	out := make([]line, 0, bytes.Count(text, []byte("\n"))+1)
	for t := range bytes.Lines(text) {
		if t = bytes.TrimRight(t, "\r\n"); len(bytes.TrimSpace(t)) == 0 {
			continue
		}
		out = append(out, line{})
		l := &out[len(out)-1]
		l.ok = d.decode(t, &l.rec)
	}
	return out
}

// blocks calls f with whole lines at a time, each time in bytes of their own. For a
// line that is too long that is tooLong.
func blocks(r io.Reader, f func(text []byte)) error {
	var rest []byte
	skips := false // amid a line that is too long
	for {
		text := make([]byte, len(rest)+blockSize)
		n, err := copy(text, rest), error(nil)
		for n < len(text) && err == nil {
			var more int
			more, err = r.Read(text[n:])
			n += more
		}
		text = text[:n]
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
		if end > 0 {
			f(text[:end])
		}
		switch rest = text[end:]; {
		case over:
			return nil
		case err != nil:
			return fmt.Errorf("reading the take log: %w", err)
		case len(rest) > longestLine:
			f(tooLong)
			rest, skips = nil, true
		}
	}
}

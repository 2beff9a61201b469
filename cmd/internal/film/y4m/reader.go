package y4m

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"

	"seamrail/cmd/internal/film/odd"
)

// blockSize is how many bytes are asked for at once: what a pipe holds many times over,
// and what stays in a processor's cache.
const blockSize = 1 << 18

// Reader reads frame after frame.
type Reader struct {
	Header  Header
	Remarks odd.Remarks
	name    string
	in      *bufio.Reader
	at      int64 // bytes so far
	frames  int
	bytes   []byte    // of a row
	row     []float32 // of the same
	levels  levels
	known   [1 << 8]float32 // what each byte means
}

// NewReader reads the first line. Errors call the recording name. Where who hands it over
// knows the range better than that line, knows changes it.
func NewReader(name string, r io.Reader, knows ...func(*Header)) (*Reader, error) {
	out := &Reader{name: name, in: bufio.NewReaderSize(r, blockSize)}
	text, n, err := line(out.in)
	if out.at = int64(n); err != nil {
		return nil, fmt.Errorf("%s has no first line as YUV4MPEG2 has it: %w", name, named(err))
	}
	if out.Header, err = ParseHeader(name, text); err != nil {
		return nil, err
	}
	for _, k := range knows {
		k(&out.Header)
	}
	out.remark()
	out.bytes = make([]byte, int64(out.Header.Width)*out.Header.sample())
	out.row = make([]float32, out.Header.Width)
	out.levels = out.Header.levels()
	out.known = out.levels.narrow()
	return out, nil
}

// named is an end where none should be by that name.
func named(err error) error {
	if err == io.EOF {
		return io.ErrUnexpectedEOF
	}
	return err
}

// remark tells what is odd of the first line.
func (r *Reader) remark() {
	switch r.Header.Interlace {
	case 't', 'b', 'm':
		r.Remarks.Add(odd.Interlaced, "%s is interlaced: each frame holds two moments, which are measured as one", r.name)
	}
	if !r.Header.Ranged {
		r.Remarks.Add(odd.Levels, "%s does not say its range; black is taken as %d and white as %d, as film has it", r.name, 16<<(r.Header.Bits-8), 235<<(r.Header.Bits-8))
	}
	if r.Header.Rate.Sign() == 0 {
		r.Remarks.Add(odd.Rate, "%s says no rate", r.name)
	}
}

// Count is how many frames a file of so many bytes has, once its first line was read and no
// frame was; 0 where it is no whole number of those without parameters.
func (r *Reader) Count(size int64) int {
	each := int64(len("FRAME\n")) + r.Header.Luma() + r.Header.Chroma()
	if left := size - r.at; left > 0 && left%each == 0 {
		return int(left / each)
	}
	return 0
}

// Read reads the next frame and hands out its rows from above; with none to take them it
// passes over it. Values are 0 at black and 1 at white, beyond them where the recording is.
// Its error is io.EOF after the last, and an *odd.Cut within one.
func (r *Reader) Read(row func(y int, row []float32)) error {
	if err := r.frameLine(); err != nil {
		return err
	}
	skip := r.Header.Chroma()
	if row == nil {
		skip += r.Header.Luma()
	} else if err := r.luma(row); err != nil {
		return err
	}
	n, err := discard(r.in, skip)
	if r.at += n; err != nil {
		return r.cut(err)
	}
	r.frames++
	return nil
}

// discard passes over bytes that may be more than an int has.
func discard(in *bufio.Reader, n int64) (int64, error) { return io.CopyN(io.Discard, in, n) }

// frameLine reads the line before a frame.
func (r *Reader) frameLine() error {
	text, n, err := line(r.in)
	r.at += int64(n)
	switch {
	case err == io.EOF:
		return err
	case err != nil:
		return r.cut(err)
	}
	words := strings.Fields(text)
	if len(words) == 0 || words[0] != "FRAME" {
		return fmt.Errorf("%s: frame %d begins with %.20q at byte %d in place of FRAME", r.name, r.frames, text, r.at-int64(n))
	}
	return nil
}

// cut is the error where a frame does not come whole.
func (r *Reader) cut(err error) error {
	c := &odd.Cut{Name: r.name, Frames: r.frames, Byte: r.at}
	if !errors.Is(err, io.EOF) && !errors.Is(err, io.ErrUnexpectedEOF) {
		c.Why = err.Error()
	}
	return c
}

func (r *Reader) luma(row func(y int, row []float32)) error {
	for y := range r.Header.Height {
		n, err := io.ReadFull(r.in, r.bytes)
		if r.at += int64(n); err != nil {
			return r.cut(err)
		}
		r.understand()
		row(y, r.row)
	}
	return nil
}

// understand makes brightness of a row's bytes.
func (r *Reader) understand() {
	if len(r.bytes) > len(r.row) {
		r.levels.deep(r.bytes, r.row)
		return
	}
	row := r.row[:len(r.bytes)]
	for x, v := range r.bytes {
		row[x] = r.known[v]
	}
}

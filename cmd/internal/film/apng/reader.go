package apng

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"image/png"
	"io"

	"seamrail/cmd/internal/film/odd"
)

// Reader reads picture after picture.
type Reader struct {
	chunks
	name    string
	head    imageHead
	palette []byte
	clear   []byte // tRNS
	canvas  canvas
	coming  *control // of the picture whose data come next
	counted uint32   // the next sequence number
	frames  int
	begun   bool // data of the default picture have come
	ended   bool
	data    bytes.Buffer // of one picture
	packed  bytes.Buffer // the same as a PNG of its own
}

// blockSize is how many bytes are asked for at once.
const blockSize = 1 << 16

// NewReader reads up to the first picture. Errors call the recording name.
func NewReader(name string, in io.Reader) (*Reader, error) {
	r := &Reader{chunks: chunks{in: bufio.NewReaderSize(in, blockSize)}, name: name}
	err := r.start()
	for err == nil && r.head.raw == nil {
		err = r.first()
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, named(err))
	}
	r.canvas = newCanvas(r.head.width, r.head.height, 1)
	return r, nil
}

func (r *Reader) first() error {
	h, err := r.next()
	if err != nil {
		return err
	}
	if h.name != "IHDR" {
		return fmt.Errorf("chunk %q is where IHDR should be", h.name)
	}
	b, err := r.small(h)
	if err == nil {
		r.head, err = parseImageHead(r.name, b)
	}
	return err
}

// Read reads the next picture, lays it on what was there, and hands out the rows of all of
// it from above. With none to take them it passes over it. Its error is io.EOF after the
// last, and an *odd.Cut where the file ends before it should.
func (r *Reader) Read(row func(y int, row []float32)) error {
	if row == nil {
		return r.ReadColour(nil)
	}
	return r.ReadColour(func(_, y int, l []float32) { row(y, l) })
}

// Colour has ReadColour hand out red, green and blue. It comes before the first picture.
func (r *Reader) Colour() { r.canvas = newCanvas(r.head.width, r.head.height, channels) }

const channels = 3

// ReadColour is as Read, but hands out the rows of red, green and blue, which are planes 0 to 2.
func (r *Reader) ReadColour(row func(plane, y int, row []float32)) error {
	err := r.gather()
	switch {
	case errors.Is(err, io.ErrUnexpectedEOF):
		return &odd.Cut{Name: r.name, Frames: r.frames, Byte: r.at}
	case err == io.EOF:
		return err
	case err == nil:
		err = r.lay()
	}
	if err != nil {
		return fmt.Errorf("%s: frame %d: %w", r.name, r.frames, err)
	}
	r.frames++
	if row != nil {
		r.canvas.handOut(row)
	}
	return nil
}

// lay decodes the picture whose data are there, and lays it on the canvas.
func (r *Reader) lay() error {
	c := r.canvas.now
	r.packed.Reset()
	r.packed.WriteString(Magic)
	size := binary.BigEndian.AppendUint32(nil, uint32(c.width))
	size = binary.BigEndian.AppendUint32(size, uint32(c.height))
	put(&r.packed, "IHDR", append(size, r.head.raw[len(size):]...))
	kept(&r.packed, "PLTE", r.palette)
	kept(&r.packed, "tRNS", r.clear)
	put(&r.packed, "IDAT", r.data.Bytes())
	put(&r.packed, "IEND", nil)
	img, err := png.Decode(&r.packed)
	if err != nil {
		return err
	}
	r.canvas.lay(img)
	return nil
}

// gather reads on until all data of the next picture are there: the chunk that begins the
// one after tells it, or the end of the file.
func (r *Reader) gather() error {
	r.data.Reset()
	for !r.ended {
		h, err := r.next()
		if err != nil {
			return named(err) // the end has a chunk of its own
		}
		had := r.coming
		if err := r.take(h); err != nil {
			return err
		}
		if whole := r.coming != had || r.ended; whole && had != nil {
			return r.begin(*had)
		}
	}
	return io.EOF
}

// begin has the picture of a control be the one that is laid.
func (r *Reader) begin(c control) error {
	if r.ended {
		r.coming = nil
	}
	if r.data.Len() == 0 {
		return errors.New("it has no data")
	}
	r.canvas.begin(c)
	return nil
}

func (r *Reader) take(h head) (err error) {
	switch h.name {
	case "PLTE":
		r.palette, err = r.small(h)
	case "tRNS":
		r.clear, err = r.small(h)
	case "fcTL":
		return r.control(h)
	case "IDAT":
		return r.plain(h)
	case "fdAT":
		return r.part(h)
	case "IEND":
		r.ended = true
		return r.pass(h)
	default:
		return r.pass(h)
	}
	return err
}

package apng

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"

	"seamrail/cmd/internal/film/odd"
	"seamrail/motion/base/exact"
)

// About is what is known of a file before its pictures are read.
type About struct {
	Width, Height int
	Bits          int       // a channel, 8 or 16
	Frames        int       // as it announces
	Rate          exact.Rat // frames a second where all are shown alike long, or else their mean; 0 where they have no time
	Shortest      exact.Rat // seconds that a picture is shown
	Longest       exact.Rat
	shown         int // pictures whose time was found
	total         float64
}

// Variable tells whether pictures are shown for different times.
func (a About) Variable() bool { return !a.Shortest.Equal(a.Longest) }

// ErrStill is that of a PNG in which nothing moves.
var ErrStill = errors.New("a still")

// Scan passes over a file for what it says of its pictures. Its error is ErrStill where it
// is a PNG with one picture alone. What is wrong or missing behind the first picture, the
// Reader tells.
func Scan(name string, in io.ReadSeeker) (About, error) {
	s := scan{chunks: chunks{in: in}, name: name, in: in}
	if err := s.start(); err != nil {
		return About{}, fmt.Errorf("%s: %w", name, named(err))
	}
	more := true
	for more {
		h, err := s.next()
		if err == nil {
			more, err = s.take(h)
		}
		if err != nil && (s.about.Frames == 0 || errors.Is(err, ErrStill)) {
			return About{}, s.word(err)
		}
		more = more && err == nil
	}
	return s.result()
}

type scan struct {
	chunks
	name  string
	in    io.ReadSeeker
	head  imageHead
	about About
}

// word is an error with the file's name, unless it is that nothing moves.
func (s *scan) word(err error) error {
	if errors.Is(err, ErrStill) {
		return ErrStill
	}
	return fmt.Errorf("%s: %w", s.name, named(err))
}

// take takes a chunk, and tells whether there may be more of use.
func (s *scan) take(h head) (more bool, err error) {
	if (h.name == "IHDR") != (s.head.raw == nil) {
		return false, fmt.Errorf("chunk %q is where IHDR should be, or IHDR where it should not", h.name)
	}
	switch h.name {
	case "IHDR":
		b, err := s.small(h)
		if err == nil {
			s.head, err = parseImageHead(s.name, b)
		}
		return true, err
	case "acTL":
		return true, s.announced(h)
	case "IDAT", "IEND":
		if s.about.Frames == 0 {
			return false, ErrStill
		}
	case "fcTL":
		return true, s.timed(h)
	}
	if h.name == "IEND" {
		return false, nil
	}
	_, err = s.in.Seek(h.length+sumSize, io.SeekCurrent)
	return true, err
}

func (s *scan) announced(h head) error {
	b, err := s.small(h)
	if err != nil {
		return err
	}
	if len(b) != animationSize {
		return fmt.Errorf("acTL has %d bytes in place of %d", len(b), animationSize)
	}
	n := binary.BigEndian.Uint32(b)
	if n == 0 || n > maxLength {
		return fmt.Errorf("it announces %d pictures; 1 to %d can be", n, maxLength)
	}
	s.about.Frames = int(n)
	return nil
}

func (s *scan) timed(h head) error {
	b, err := s.small(h)
	if err != nil {
		return err
	}
	c, err := parseControl(b, s.head)
	if err != nil {
		return err
	}
	a := &s.about
	if a.shown == 0 || c.delay.Less(a.Shortest) {
		a.Shortest = c.delay
	}
	if a.Longest.Less(c.delay) {
		a.Longest = c.delay
	}
	a.shown++
	a.total += c.delay.Float()
	return nil
}

// finest is how fine the mean rate of pictures that are shown for different times is told:
// it is exact where its denominator is no greater.
const finest = 1_000_000

func (s *scan) result() (About, error) {
	a := s.about
	a.Width, a.Height, a.Bits = s.head.width, s.head.height, max(8, s.head.depth)
	switch {
	case a.shown == 0 || a.Longest.Sign() == 0:
	case a.Variable():
		a.Rate = exact.Approx(float64(a.shown)/a.total, finest)
	default:
		a.Rate = a.Longest.Inv()
	}
	return a, nil
}

// Remarks are what is odd of what a file says.
func (a About) Remarks(name string) (out odd.Remarks) {
	if a.Variable() {
		out.Add(odd.Variable, "%s shows its pictures for %s to %s s: its rate varies, and %.6g a second is their mean", name, a.Shortest, a.Longest, a.Rate.Float())
	}
	if a.Rate.Sign() == 0 {
		out.Add(odd.Rate, "%s says no rate", name)
	}
	return out
}

// kept is a chunk that every picture has with the others, as it is written.
func kept(into *bytes.Buffer, name string, data []byte) {
	if data != nil {
		put(into, name, data)
	}
}

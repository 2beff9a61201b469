// Package y4m reads YUV4MPEG2, raw video behind a line of text, as rows of luma.
//
// The format is that of yuv4mpeg(5) of MJPEG Tools: a line "YUV4MPEG2" with parameters, then
// for each frame a line "FRAME" and its planes, luma first. Names of more than 8 bits
// (C420p10, Cmono16: two bytes a sample, the lower first) and XCOLORRANGE are common
// practice of those who write it today. It is from memory, as what ffmpeg writes bears out.
package y4m

import (
	"bufio"
	"fmt"
	"io"
	"strconv"
	"strings"

	"seamrail/cmd/internal/film/odd"
	"seamrail/motion/base/exact"
)

// Magic is what every such recording begins with.
const Magic = "YUV4MPEG2"

const (
	// maxLine is how many bytes the first line and that of a frame may have: writers
	// stay below a hundred, and whatever else is in a comment nobody needs.
	maxLine = 4096
	// maxPart is the greatest number in a rate: what 31 bits hold, as writers have it.
	maxPart = 1<<31 - 1
)

// Header is the first line of a recording.
type Header struct {
	Width, Height int
	Rate          exact.Rat // frames a second; 0 where it is said to be unknown
	Bits          int       // a sample, 8 to 16
	Full          bool      // black is 0 and white all ones, not 16 and 235 of 256
	White         int       // the sample that is white where it is full, but not all ones; else 0
	Ranged        bool      // it says which of them
	Interlace     byte      // 'p', 't', 'b', 'm', or '?' where it is unknown
	chroma        chroma
}

// Luma is the size of a frame's luma in bytes.
func (h Header) Luma() int64 { return int64(h.Width) * int64(h.Height) * h.sample() }

// Chroma is the size of what follows it in a frame, in bytes.
func (h Header) Chroma() int64 {
	return h.sample() * h.chroma.samples(int64(h.Width), int64(h.Height))
}

// sample is the bytes of one.
func (h Header) sample() int64 {
	if h.Bits > 8 {
		return 2
	}
	return 1
}

// line reads up to a line feed, which it leaves out. Its error is io.EOF only where there
// is nothing.
func line(r *bufio.Reader) (string, int, error) {
	var out []byte
	for {
		b, err := r.ReadByte()
		switch {
		case err == io.EOF && len(out) > 0:
			return string(out), len(out), io.ErrUnexpectedEOF
		case err != nil:
			return "", len(out), err
		case b == '\n':
			return string(out), len(out) + 1, nil
		case len(out) == maxLine:
			return "", len(out), fmt.Errorf("a line has more than %d bytes", maxLine)
		}
		out = append(out, b)
	}
}

// ParseHeader reads the first line, without its end, of a recording that is called name in
// errors.
func ParseHeader(name, text string) (Header, error) {
	words := strings.Fields(text)
	if len(words) == 0 || words[0] != Magic {
		return Header{}, fmt.Errorf("%s does not begin with %s", name, Magic)
	}
	h := Header{Bits: 8, Interlace: '?', chroma: chromas()["420"]}
	for _, w := range words[1:] {
		if err := h.take(w); err != nil {
			return Header{}, fmt.Errorf("%s: %w", name, err)
		}
	}
	return h, odd.CheckSize(name, h.Width, h.Height)
}

// take takes one parameter of the first line. Those that nothing is made of here pass.
func (h *Header) take(word string) (err error) {
	switch value := word[1:]; word[0] {
	case 'W':
		h.Width, err = side("width", value)
	case 'H':
		h.Height, err = side("height", value)
	case 'F':
		h.Rate, err = rate(value)
	case 'I':
		err = h.interlace(value)
	case 'C':
		h.chroma, h.Bits, err = parseChroma(value)
	case 'X':
		h.comment(value)
	}
	return err
}

// comment is a parameter of whoever wrote the file.
func (h *Header) comment(value string) {
	switch value {
	case "COLORRANGE=FULL":
		h.Full, h.Ranged = true, true
	case "COLORRANGE=LIMITED":
		h.Full, h.Ranged = false, true
	}
}

func (h *Header) interlace(value string) error {
	if len(value) != 1 || !strings.Contains("ptbm?", value) {
		return fmt.Errorf("interlacing %q is none of p, t, b, m and ?", value)
	}
	h.Interlace = value[0]
	return nil
}

func side(what, value string) (int, error) {
	n, err := strconv.Atoi(value)
	if err != nil || n < 1 {
		return 0, fmt.Errorf("%s %q must be a whole number of pixels, at least 1", what, value)
	}
	return n, nil
}

// rate reads frames a second; 0:0 is the format's word for unknown.
func rate(value string) (exact.Rat, error) {
	over, under, ok := strings.Cut(value, ":")
	n, errN := strconv.ParseInt(over, 10, 64)
	d, errD := strconv.ParseInt(under, 10, 64)
	if ok && errN == nil && errD == nil && n == 0 && d == 0 {
		return exact.Rat{}, nil
	}
	if !ok || errN != nil || errD != nil || n < 1 || d < 1 || n > maxPart || d > maxPart {
		return exact.Rat{}, fmt.Errorf("rate F%s must be two whole numbers from 1 to %d, as F24000:1001", value, maxPart)
	}
	return exact.New(n, d), nil
}

package apng

import (
	"encoding/binary"
	"fmt"

	"seamrail/cmd/internal/film/odd"
	"seamrail/motion/base/exact"
)

// What becomes of a picture's place when its time is over, and how it is laid down
// (11.3.6.2).
const (
	disposeNone = iota
	disposeBackground
	disposePrevious
)

const (
	blendSource = iota
	blendOver
)

const (
	imageHeadSize = 13 // bytes of an IHDR (11.2.1)
	animationSize = 8  // of an acTL
	controlSize   = 26 // of an fcTL
	hundredths    = 100
)

// imageHead is that of the file: the size of the canvas, and the form of all pictures.
type imageHead struct {
	width, height int
	depth         int // bits a sample
	raw           []byte
}

func parseImageHead(name string, b []byte) (imageHead, error) {
	if len(b) != imageHeadSize {
		return imageHead{}, fmt.Errorf("%s: IHDR has %d bytes in place of %d", name, len(b), imageHeadSize)
	}
	w, h := binary.BigEndian.Uint32(b), binary.BigEndian.Uint32(b[4:])
	if w > odd.MaxSide || h > odd.MaxSide { // before it may be negative as an int
		w, h = min(w, odd.MaxSide+1), min(h, odd.MaxSide+1)
	}
	head := imageHead{int(w), int(h), int(b[8]), b}
	return head, odd.CheckSize(name, head.width, head.height)
}

// maxSample is how many bytes a pixel has at most: four channels of 16 bits.
const maxSample = 8

// largest bounds how many bytes a picture's packed data have: those of its pixels, and an
// eighth more for what a packer may add that packs nothing, and for the passes of an
// interlaced one; slack is for pictures of few pixels.
func largest(c control) int64 {
	const slack = 1 << 16
	raw := int64(c.height) * (1 + maxSample*int64(c.width))
	return raw + raw/8 + slack
}

// control is an fcTL: where the next picture lies, and for how long.
type control struct {
	sequence      uint32
	width, height int
	x, y          int
	delay         exact.Rat // seconds
	dispose       byte
	blend         byte
}

// parseControl reads one for a canvas of that size.
func parseControl(b []byte, canvas imageHead) (control, error) {
	if len(b) != controlSize {
		return control{}, fmt.Errorf("fcTL has %d bytes in place of %d", len(b), controlSize)
	}
	var n [5]uint32
	for i := range n {
		n[i] = binary.BigEndian.Uint32(b[4*i:])
	}
	w, h, x, y := uint64(n[1]), uint64(n[2]), uint64(n[3]), uint64(n[4])
	if w == 0 || h == 0 || x+w > uint64(canvas.width) || y+h > uint64(canvas.height) {
		return control{}, fmt.Errorf("a picture of %d x %d px at %d, %d is not within the %d x %d of all", w, h, x, y, canvas.width, canvas.height)
	}
	c := control{n[0], int(w), int(h), int(x), int(y), delayOf(b[20:]), b[24], b[25]}
	if c.dispose > disposePrevious || c.blend > blendOver {
		return control{}, fmt.Errorf("fcTL asks for dispose %d and blend %d; 0 to %d and 0 to %d are known", c.dispose, c.blend, disposePrevious, blendOver)
	}
	return c, nil
}

// delayOf is a fraction of a second; one over 0 counts hundredths.
func delayOf(b []byte) exact.Rat {
	num, den := binary.BigEndian.Uint16(b), binary.BigEndian.Uint16(b[2:])
	if den == 0 {
		den = hundredths
	}
	return exact.New(int64(num), int64(den))
}

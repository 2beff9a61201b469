package preview

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/png"
	"io"
)

// film writes an animated PNG picture by picture. The standard library packs each as a
// PNG of its own, and the film takes its chunks over: the first picture's data stay
// IDAT, so that who knows no animation shows it, those of the others become fdAT, and
// before each picture comes an fcTL with its delay. All are opaque and of one size, so
// that the head of the first is that of all.
// Source: W3C PNG, third edition, 5.3 (chunks), 11.3.6 (acTL, fcTL, fdAT).
type film struct {
	w        io.Writer
	pictures int    // in all, told in the head
	added    int    // so far
	sequence uint32 // the number of the next fcTL or fdAT
	packer   png.Encoder
	packed   bytes.Buffer
	err      error // the first of w
}

// newFilm returns a film of so many pictures, which plays for ever. A drawing so plain
// packs nearly as well at the quickest level.
func newFilm(w io.Writer, pictures int) *film {
	packer := png.Encoder{CompressionLevel: png.BestSpeed, BufferPool: &buffer{}}
	return &film{w: w, pictures: pictures, packer: packer}
}

// The sizes of a PNG's parts, in bytes.
const (
	signatureSize = 8
	lengthSize    = 4
	nameSize      = 4
	sumSize       = 4
)

// add writes the next picture, and after the last the end of the file.
func (f *film) add(img image.Image, d Delay) error {
	f.packed.Reset()
	if err := f.packer.Encode(&f.packed, img); err != nil {
		return err
	}
	f.added++
	if f.added == 1 {
		f.write(f.packed.Bytes()[:signatureSize])
	}
	begun := false
	for rest := f.packed.Bytes()[signatureSize:]; len(rest) > 0; {
		size := lengthSize + nameSize + int(binary.BigEndian.Uint32(rest)) + sumSize
		if string(rest[lengthSize:lengthSize+nameSize]) == "IDAT" && !begun {
			begun = true
			f.control(img.Bounds(), d)
		}
		f.take(rest[:size])
		rest = rest[size:]
	}
	return f.err
}

// take takes a chunk of the picture just added over, as it is or as what it becomes.
func (f *film) take(chunk []byte) {
	name := string(chunk[lengthSize : lengthSize+nameSize])
	first, last := f.added == 1, f.added == f.pictures
	switch {
	case name == "IDAT" && !first:
		f.chunk("fdAT", f.number(), chunk[lengthSize+nameSize:len(chunk)-sumSize])
	case name == "IDAT", name == "IEND" && last:
		f.write(chunk)
	case name == "IHDR" && first:
		f.write(chunk)
		forever := make([]byte, 4) // no number of plays
		f.chunk("acTL", binary.BigEndian.AppendUint32(nil, uint32(f.pictures)), forever)
	}
}

// control writes the fcTL of the next picture: all of the canvas, put in the place of
// what was there, and left.
func (f *film) control(size image.Rectangle, d Delay) {
	out := f.number()
	for _, v := range []int{size.Dx(), size.Dy(), 0, 0} {
		out = binary.BigEndian.AppendUint32(out, uint32(v))
	}
	out = binary.BigEndian.AppendUint16(out, d.Num)
	out = binary.BigEndian.AppendUint16(out, d.Den)
	f.chunk("fcTL", append(out, 0, 0)) // dispose: none; blend: source
}

// number is the next sequence number, as the file has it.
func (f *film) number() []byte {
	f.sequence++
	return binary.BigEndian.AppendUint32(nil, f.sequence-1)
}

func (f *film) chunk(name string, data ...[]byte) {
	body := append([]byte(name), bytes.Join(data, nil)...)
	f.write(binary.BigEndian.AppendUint32(nil, uint32(len(body)-nameSize)))
	f.write(body)
	f.write(binary.BigEndian.AppendUint32(nil, crc32.ChecksumIEEE(body)))
}

func (f *film) write(p []byte) {
	if f.err == nil {
		_, f.err = f.w.Write(p)
	}
}

// buffer is what one picture is packed with, kept for the next.
type buffer struct{ kept *png.EncoderBuffer }

// Get returns the buffer, or nil for a new one.
func (b *buffer) Get() *png.EncoderBuffer { return b.kept }

// Put keeps the buffer.
func (b *buffer) Put(kept *png.EncoderBuffer) { b.kept = kept }

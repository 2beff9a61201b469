package apng_test

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/png"

	"github.com/stretchr/testify/require"
)

// picture is one of an animation that a test writes.
type picture struct {
	img            image.Image
	at             image.Point
	num, den       uint16
	dispose, blend byte
}

type chunk struct {
	name string
	data []byte
}

// raw is a file of chunks.
func raw(list ...chunk) []byte {
	out := []byte("\x89PNG\r\n\x1a\n")
	for _, c := range list {
		out = binary.BigEndian.AppendUint32(out, uint32(len(c.data)))
		body := append([]byte(c.name), c.data...)
		out = binary.BigEndian.AppendUint32(append(out, body...), crc32.ChecksumIEEE(body))
	}
	return out
}

// parsed are the chunks of a file.
func parsed(file []byte) (out []chunk) {
	for rest := file[8:]; len(rest) > 0; {
		n := int(binary.BigEndian.Uint32(rest))
		out = append(out, chunk{string(rest[4:8]), rest[8 : 8+n]})
		rest = rest[12+n:]
	}
	return out
}

func be(values ...uint32) (out []byte) {
	for _, v := range values {
		out = binary.BigEndian.AppendUint32(out, v)
	}
	return out
}

// animation is what a writer that knows all that the format has makes of pictures. Where
// hidden is one, it is what those see who know no animation.
func animation(t require.TestingT, hidden image.Image, list ...picture) []chunk {
	var out []chunk
	number := uint32(0)
	next := func() uint32 { number++; return number - 1 }
	packed := func(img image.Image) []chunk {
		var b bytes.Buffer
		require.NoError(t, png.Encode(&b, img))
		return parsed(b.Bytes())
	}
	head := func(img image.Image) {
		for _, c := range packed(img) {
			switch c.name {
			case "IHDR":
				out = append(out, c, chunk{"acTL", be(uint32(len(list)), 0)})
			case "PLTE", "tRNS":
				out = append(out, c)
			}
		}
	}
	if hidden != nil {
		head(hidden)
		for _, c := range packed(hidden) {
			if c.name == "IDAT" {
				out = append(out, c)
			}
		}
	}
	for i, p := range list {
		first := i == 0 && hidden == nil
		if first {
			head(p.img)
		}
		size := p.img.Bounds().Size()
		control := be(next(), uint32(size.X), uint32(size.Y), uint32(p.at.X), uint32(p.at.Y))
		control = binary.BigEndian.AppendUint16(control, p.num)
		control = binary.BigEndian.AppendUint16(control, p.den)
		out = append(out, chunk{"fcTL", append(control, p.dispose, p.blend)})
		for _, c := range packed(p.img) {
			switch {
			case c.name != "IDAT":
			case first:
				out = append(out, c)
			default:
				half := len(c.data) / 2 // data in parts, one of them empty
				for _, part := range [][]byte{c.data[:half], nil, c.data[half:]} {
					out = append(out, chunk{"fdAT", append(be(next()), part...)})
				}
			}
		}
	}
	return append(out, chunk{"tEXt", []byte("Comment\x00x")}, chunk{name: "IEND"})
}

package apng_test

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"errors"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/cmd/internal/film/apng"
	"seamrail/cmd/internal/film/luma"
	"seamrail/cmd/internal/film/odd"
	"seamrail/motion/plan/sample/many"
)

// read are the pictures of a file as luma, and the error that ends it.
func read(data []byte) (frames [][]float32, err error) {
	r, err := apng.NewReader("a.png", bytes.NewReader(data))
	for err == nil {
		var f []float32
		if err = r.Read(func(_ int, row []float32) { f = append(f, row...) }); err == nil {
			frames = append(frames, f)
		}
	}
	return frames, err
}

func lumaOf(img image.Image) (out []float32) {
	b := img.Bounds()
	row := make([]float32, b.Dx())
	for y := range b.Dy() {
		luma.Row(img, y, row)
		out = append(out, row...)
	}
	return out
}

// kinds are pictures that the standard library writes in a form of PNG each.
func kinds() map[string]func(image.Rectangle) draw.Image {
	return map[string]func(image.Rectangle) draw.Image{
		"grey":     func(r image.Rectangle) draw.Image { return image.NewGray(r) },
		"grey 16":  func(r image.Rectangle) draw.Image { return image.NewGray16(r) },
		"alpha":    func(r image.Rectangle) draw.Image { return image.NewNRGBA(r) },
		"alpha 16": func(r image.Rectangle) draw.Image { return image.NewNRGBA64(r) },
		"palette": func(r image.Rectangle) draw.Image {
			return image.NewPaletted(r, color.Palette{color.NRGBA{9, 80, 200, 255}, color.NRGBA{200, 90, 3, 60}, color.NRGBA{}, color.White})
		},
	}
}

// filled is a picture of a kind with colours drawn at random. One pixel of it is transparent
// where the kind can be, so that all of an animation are written alike.
func filled(t *rapid.T, kind string, size image.Point) draw.Image {
	img := kinds()[kind](image.Rectangle{Max: size})
	values := rapid.SliceOfN(rapid.Uint64(), size.X*size.Y, size.X*size.Y).Draw(t, "colours")
	for i, v := range values {
		c := color.NRGBA64{uint16(v), uint16(v >> 16), uint16(v >> 32), uint16(v >> 48)}
		if i == 0 {
			c.A = 0x3fff
		}
		img.Set(i%size.X, i/size.X, c)
	}
	return img
}

// laid is what the standard library's drawing makes of an animation, picture by picture.
func laid(size image.Point, list []picture) (out [][]float32) {
	canvas := image.NewRGBA64(image.Rectangle{Max: size})
	for i, p := range list {
		place := p.img.Bounds().Add(p.at)
		before := image.NewRGBA64(canvas.Rect)
		copy(before.Pix, canvas.Pix)
		op := draw.Src
		if p.blend == 1 {
			op = draw.Over
		}
		draw.Draw(canvas, place, p.img, image.Point{}, op)
		out = append(out, lumaOf(canvas))
		switch {
		case p.dispose == 1, p.dispose == 2 && i == 0:
			draw.Draw(canvas, place, image.Transparent, image.Point{}, draw.Src)
		case p.dispose == 2:
			canvas = before
		}
	}
	return out
}

// Pictures of any size at any place, taken away and laid down in every way, are what the
// standard library's drawing makes of them.
func TestLaidAsTheLibraryDraws(t *testing.T) {
	for kind := range kinds() {
		t.Run(kind, func(t *testing.T) {
			many.Check(t, 30, func(t *rapid.T) { // for each of the kinds
				size := image.Point{rapid.IntRange(1, 8).Draw(t, "width"), rapid.IntRange(1, 8).Draw(t, "height")}
				var list []picture
				for i := range rapid.IntRange(1, 6).Draw(t, "pictures") {
					p := picture{num: 1, den: 24}
					part := size
					if i > 0 {
						part = image.Point{rapid.IntRange(1, size.X).Draw(t, "w"), rapid.IntRange(1, size.Y).Draw(t, "h")}
						p.at = image.Point{rapid.IntRange(0, size.X-part.X).Draw(t, "x"), rapid.IntRange(0, size.Y-part.Y).Draw(t, "y")}
					}
					p.img = filled(t, kind, part)
					p.dispose, p.blend = byte(rapid.IntRange(0, 2).Draw(t, "dispose")), byte(rapid.IntRange(0, 1).Draw(t, "blend"))
					list = append(list, p)
				}
				var hidden image.Image
				if rapid.Bool().Draw(t, "hidden") {
					hidden = filled(t, kind, size)
				}
				got, err := read(raw(animation(t, hidden, list...)...))
				require.Equal(t, io.EOF, err)
				want := laid(size, list)
				require.Len(t, got, len(want))
				for k := range want {
					// 16 bits of each channel are rounded at each laying, by the library.
					require.InDeltaSlice(t, want[k], got[k], 1e-4, "picture %d", k)
				}
			})
		})
	}
}

// Opaque pictures come back to the bit.
func TestOpaquePicturesAreExact(t *testing.T) {
	var list []picture
	for k := range 5 {
		img := image.NewRGBA(image.Rect(0, 0, 40, 30))
		for i := range img.Pix {
			img.Pix[i] = uint8(i*i/7+k*31) | uint8(i%4/3*0xff)
		}
		list = append(list, picture{img: img, num: 1001, den: 24000})
	}
	data := raw(animation(t, nil, list...)...)
	got, err := read(data)
	require.Equal(t, io.EOF, err)
	for k, p := range list {
		assert.Equal(t, lumaOf(p.img), got[k])
	}
	about, err := apng.Scan("a.png", bytes.NewReader(data))
	require.NoError(t, err)
	assert.Equal(t, "24000/1001", about.Rate.String())
	assert.Equal(t, 5, about.Frames)
	assert.Equal(t, 8, about.Bits)
	assert.False(t, about.Variable())
	assert.Empty(t, about.Remarks("a.png"))
}

func small(num, den uint16) picture {
	return picture{img: image.NewGray16(image.Rect(0, 0, 3, 2)), num: num, den: den}
}

func TestRates(t *testing.T) {
	for name, c := range map[string]struct {
		list   []picture
		rate   string
		remark string
	}{
		"hundredths": {[]picture{small(4, 0), small(1, 25)}, "25", ""},
		"variable":   {[]picture{small(1, 24), small(1, 24), small(1, 8)}, "72/5", "for 1/24 to 1/8 s: its rate varies, and 14.4 a second is their mean"},
		"no time":    {[]picture{small(0, 24), small(0, 1)}, "0", "says no rate"},
		"one of it":  {[]picture{small(0, 24), small(1, 10)}, "20", "for 0 to 1/10 s"},
	} {
		t.Run(name, func(t *testing.T) {
			about, err := apng.Scan("a.png", bytes.NewReader(raw(animation(t, nil, c.list...)...)))
			require.NoError(t, err)
			assert.Equal(t, c.rate, about.Rate.String())
			assert.Equal(t, 16, about.Bits)
			remarks := about.Remarks("a.png")
			if c.remark == "" {
				assert.Empty(t, remarks)
				return
			}
			require.Len(t, remarks, 1)
			assert.Contains(t, remarks[0].Text, c.remark)
		})
	}
}

func TestAStillIsTold(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, 3, 2))))
	_, err := apng.Scan("a.png", bytes.NewReader(b.Bytes()))
	assert.ErrorIs(t, err, apng.ErrStill)
	late := parsed(b.Bytes()) // acTL has to come before IDAT
	late = append(late[:len(late)-1], chunk{"acTL", be(1, 0)}, chunk{name: "IEND"})
	_, err = apng.Scan("a.png", bytes.NewReader(raw(late...)))
	assert.ErrorIs(t, err, apng.ErrStill)
}

// Cut anywhere, the pictures before are whole and the cut is told.
func TestCutAnywhere(t *testing.T) {
	data := raw(animation(t, nil, small(1, 24), small(1, 24), small(1, 24))...)
	whole, err := read(data)
	require.Equal(t, io.EOF, err)
	for n := range len(data) {
		got, err := read(data[:n])
		var cut *odd.Cut
		if !errors.As(err, &cut) {
			require.ErrorIs(t, err, io.ErrUnexpectedEOF, "cut at %d", n)
			require.Empty(t, got)
			continue
		}
		assert.Equal(t, len(got), cut.Frames)
		assert.Equal(t, int64(n), cut.Byte)
		assert.Equal(t, whole[:len(got)], append([][]float32{}, got...))
	}
}

// edited is an animation of two pictures with one of its chunks made another.
func edited(t *testing.T, name string, edit func(c *chunk)) []byte {
	list := animation(t, nil, small(1, 24), small(1, 24))
	for i := len(list) - 1; i >= 0; i-- { // the last of that name
		if list[i].name == name {
			list[i].data = bytes.Clone(list[i].data)
			edit(&list[i])
			return raw(list...)
		}
	}
	t.Fatalf("no chunk %s", name)
	return nil
}

func put32(at int, v uint32) func(c *chunk) {
	return func(c *chunk) { binary.BigEndian.PutUint32(c.data[at:], v) }
}

func TestRefused(t *testing.T) {
	flipped := edited(t, "IHDR", func(*chunk) {})
	flipped[bytes.Index(flipped, []byte("fdAT"))+10] ^= 1
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"no PNG":         {[]byte("GIF89a, and more"), "does not begin as a PNG does"},
		"empty":          {nil, "unexpected EOF"},
		"no width":       {edited(t, "IHDR", put32(0, 0)), "0 x 2 px; both must be at least 1"},
		"huge":           {edited(t, "IHDR", put32(0, 1<<31)), "at most 16384 px a side"},
		"short head":     {edited(t, "IHDR", func(c *chunk) { c.data = c.data[:12] }), "IHDR has 12 bytes in place of 13"},
		"no head":        {raw(chunk{"IDAT", nil}), `chunk "IDAT" is where IHDR should be`},
		"beyond":         {edited(t, "fcTL", put32(12, 1)), "a picture of 3 x 2 px at 1, 0 is not within the 3 x 2 of all"},
		"overflow":       {edited(t, "fcTL", put32(12, 1<<32-1)), "is not within"},
		"zero":           {edited(t, "fcTL", put32(4, 0)), "a picture of 0 x 2 px"},
		"out of order":   {edited(t, "fcTL", put32(0, 9)), "part 9 comes where 1 should"},
		"part missing":   {edited(t, "fdAT", put32(0, 7)), "part 7 comes where 4 should"},
		"dispose":        {edited(t, "fcTL", func(c *chunk) { c.data[24] = 3 }), "dispose 3 and blend 0"},
		"blend":          {edited(t, "fcTL", func(c *chunk) { c.data[25] = 2 }), "dispose 0 and blend 2"},
		"short control":  {edited(t, "fcTL", func(c *chunk) { c.data = c.data[:25] }), "fcTL has 25 bytes in place of 26"},
		"no number":      {edited(t, "fdAT", func(c *chunk) { c.data = c.data[:3] }), "fdAT has no picture or no number"},
		"too much":       {edited(t, "fdAT", func(c *chunk) { c.data = append(c.data, make([]byte, 1<<17)...) }), "which 3 x 2 px cannot need"},
		"long palette":   {raw(append(animation(t, nil, small(1, 2))[:2], chunk{"PLTE", make([]byte, 900)})...), "chunk PLTE at byte 61 has 900 bytes; at most 768 can be"},
		"no data":        {edited(t, "fdAT", func(c *chunk) { c.name = "teSt" }), "frame 1"},
		"stray data":     {edited(t, "fcTL", func(c *chunk) { c.name = "teSt" }), "part 2 comes where 1 should"},
		"IDAT later":     {edited(t, "fdAT", func(c *chunk) { c.name = "IDAT" }), "IDAT comes where fdAT should"},
		"not all filled": {edited(t, "IHDR", put32(0, 4)), "the first picture does not cover all"},
		"damaged":        {flipped, "its sum does not match"},
		"no zlib":        {edited(t, "IDAT", func(c *chunk) { c.data[0] ^= 0xff }), "frame 0"},
		"form":           {edited(t, "IHDR", func(c *chunk) { c.data[9] = 5 }), "frame 0"},
		"long":           {append(raw(chunk{"IHDR", animation(t, nil, small(1, 2))[0].data}), 0xff, 0xff, 0xff, 0xff, 'a', 'b', 'c', 'd'), "at most 2147483647 can be"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := read(c.data)
			require.ErrorContains(t, err, c.want)
			require.NotErrorIs(t, err, io.EOF)
		})
	}
}

func TestScanRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"none announced": {edited(t, "acTL", put32(0, 0)), "it announces 0 pictures; 1 to 2147483647 can be"},
		"short":          {edited(t, "acTL", func(c *chunk) { c.data = c.data[:4] }), "acTL has 4 bytes in place of 8"},
		"too large":      {edited(t, "IHDR", put32(4, 1<<20)), "at most 16384"},
		"nothing":        {nil, "unexpected EOF"},
		"cut":            {[]byte(apng.Magic), "unexpected EOF"},
		"no head":        {raw(chunk{"acTL", be(2, 0)}), `chunk "acTL" is where IHDR should be`},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := apng.Scan("a.png", bytes.NewReader(c.data))
			assert.ErrorContains(t, err, c.want)
			assert.ErrorContains(t, err, "a.png")
		})
	}
}

// Chunks that say nothing of the pictures, thousands of them, are passed over.
func TestThousandsOfChunks(t *testing.T) {
	list := animation(t, nil, small(1, 24), small(1, 24))
	var out []chunk
	for _, c := range list {
		if c.name == "fcTL" || c.name == "IEND" {
			for range 5000 {
				out = append(out, chunk{"tEXt", []byte(strings.Repeat("a", 10))})
			}
		}
		out = append(out, c)
	}
	got, err := read(raw(out...))
	assert.Equal(t, io.EOF, err)
	assert.Len(t, got, 2)
	about, err := apng.Scan("a.png", bytes.NewReader(raw(out...)))
	require.NoError(t, err)
	assert.Equal(t, "24", about.Rate.String())
}

// Data that swell to far more than the picture has are not unpacked to their end.
func TestDataThatSwell(t *testing.T) {
	var packed bytes.Buffer
	z := zlib.NewWriter(&packed)
	zeros := make([]byte, 1<<20)
	for range 32 {
		_, err := z.Write(zeros)
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	data := edited(t, "IDAT", func(c *chunk) { c.data = packed.Bytes() })
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, err := read(data)
	runtime.ReadMemStats(&after)
	assert.ErrorContains(t, err, "frame 0: png: invalid format: too much pixel data")
	assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(1<<20))
}

// maxFuzzed is how many pixels a canvas may have while inputs are made up: what is held of a
// large one is bounded, but slow to clear a thousand times a second.
const maxFuzzed = 1 << 16

func FuzzReader(f *testing.F) {
	f.Add(raw(animation(f, nil, small(1, 24), small(1, 24))...))
	f.Add(raw(animation(f, image.NewGray16(image.Rect(0, 0, 3, 2)), picture{img: image.NewGray16(image.Rect(0, 0, 2, 1)), den: 3, dispose: 2, blend: 1}, small(1, 24))...))
	f.Add(raw(animation(f, nil, picture{img: image.NewNRGBA(image.Rect(0, 0, 2, 2)), blend: 1, dispose: 1})...))
	f.Fuzz(func(t *testing.T, data []byte) {
		about, err := apng.Scan("f", bytes.NewReader(data))
		if err != nil || about.Width*about.Height > maxFuzzed {
			return
		}
		_, _ = about.Variable(), about.Remarks("f")
		frames, err := read(data)
		require.Error(t, err)
		for _, f := range frames {
			require.Len(t, f, about.Width*about.Height)
		}
	})
}

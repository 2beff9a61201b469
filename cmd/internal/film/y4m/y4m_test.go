package y4m_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/cmd/internal/film/odd"
	"seamrail/cmd/internal/film/y4m"
)

// written is a recording of frames of samples, each with chroma that luma must not show.
func written(head string, wide bool, chroma int, frames ...[]int) []byte {
	var out bytes.Buffer
	out.WriteString(head + "\n")
	sample := func(v int) {
		out.WriteByte(byte(v))
		if wide {
			out.WriteByte(byte(v >> 8))
		}
	}
	for i, f := range frames {
		out.WriteString("FRAME" + []string{"", " Ip", " XANY=1"}[i%3] + "\n")
		for _, v := range f {
			sample(v)
		}
		for range chroma {
			sample(77)
		}
	}
	return out.Bytes()
}

// read are the frames of a recording, and the error that ends it.
func read(r *y4m.Reader) (frames [][]float32, err error) {
	for {
		var f []float32
		err := r.Read(func(_ int, row []float32) { f = append(f, row...) })
		if err != nil {
			return frames, err
		}
		frames = append(frames, f)
	}
}

func opened(t require.TestingT, data []byte) *y4m.Reader {
	r, err := y4m.NewReader("a.y4m", bytes.NewReader(data))
	require.NoError(t, err)
	return r
}

// Whatever is written is read back: every colour space, every depth, odd sizes.
func TestReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width, height := rapid.IntRange(1, 9).Draw(t, "width"), rapid.IntRange(1, 9).Draw(t, "height")
		bits := rapid.SampledFrom([]int{8, 9, 10, 12, 14, 16}).Draw(t, "bits")
		space := rapid.SampledFrom([]string{"420", "422", "444", "mono"}).Draw(t, "space")
		if bits == 8 {
			space = rapid.SampledFrom([]string{"420jpeg", "420mpeg2", "420paldv", "420", "411", "422", "444", "444alpha", "mono"}).Draw(t, "space of 8")
		}
		name, half := space, func(n, by int) int { return (n + by - 1) / by }
		chroma := map[string]int{"411": 2 * half(width, 4) * height, "422": 2 * half(width, 2) * height,
			"444": 2 * width * height, "444alpha": 3 * width * height, "mono": 0}
		size, ok := chroma[space]
		if !ok {
			size = 2 * half(width, 2) * half(height, 2)
		}
		if bits > 8 && space != "mono" {
			name += "p"
		}
		if bits > 8 {
			name += fmt.Sprint(bits)
		}
		frame := rapid.SliceOfN(rapid.IntRange(0, 1<<bits-1), width*height, width*height)
		frames := rapid.SliceOfN(frame, 0, 4).Draw(t, "frames")
		full := rapid.Bool().Draw(t, "full")
		head := fmt.Sprintf("YUV4MPEG2 W%d H%d F24000:1001 Ip A1:1 C%s XCOLORRANGE=%s", width, height, name, map[bool]string{true: "FULL", false: "LIMITED"}[full])
		data := written(head, bits > 8, size, frames...)
		r := opened(t, data)
		assert.Equal(t, bits, r.Header.Bits)
		assert.Equal(t, "24000/1001", r.Header.Rate.String())
		assert.Empty(t, r.Remarks)
		got, err := read(r)
		require.Equal(t, io.EOF, err)
		require.Len(t, got, len(frames))
		black, white := float64(int(16)<<(bits-8)), float64(int(235)<<(bits-8))
		if full {
			black, white = 0, float64(int(1)<<bits-1)
		}
		for k := range got {
			for i, v := range got[k] {
				require.InDelta(t, (float64(frames[k][i])-black)/(white-black), float64(v), 2e-7)
			}
		}
	})
}

// Black is 0 and white 1 to the bit, and beyond them stays beyond.
func TestBlackAndWhite(t *testing.T) {
	r := opened(t, written("YUV4MPEG2 W4 H1 F24:1 Cmono", false, 0, []int{16, 235, 0, 255}))
	got, err := read(r)
	require.Equal(t, io.EOF, err)
	assert.Equal(t, float32(0), got[0][0])
	assert.Equal(t, float32(1), got[0][1])
	assert.InDelta(t, -16/219., got[0][2], 1e-7)
	assert.InDelta(t, 239/219., got[0][3], 1e-7)
	r = opened(t, written("YUV4MPEG2 W2 H1 F24:1 Cmono10 XCOLORRANGE=FULL", true, 0, []int{0, 1023}))
	got, err = read(r)
	require.Equal(t, io.EOF, err)
	assert.Equal(t, []float32{0, 1}, got[0])
}

// A sample of more bits than it should have is bright, and no harm.
func TestSamplesOfTooManyBits(t *testing.T) {
	got, err := read(opened(t, written("YUV4MPEG2 W2 H1 F24:1 Cmono10 XCOLORRANGE=FULL", true, 0, []int{1 << 10, 1<<16 - 1})))
	require.Equal(t, io.EOF, err)
	assert.InDeltaSlice(t, []float32{1024 / 1023., 65535 / 1023.}, got[0], 1e-5)
}

func TestHeadersRefused(t *testing.T) {
	for text, want := range map[string]string{
		"":                                        "has no first line",
		"YUV4MPEG2 W4 H4":                         "has no first line", // it does not end
		"YUV4MPEG3 W4 H4\n":                       "does not begin with YUV4MPEG2",
		"\n":                                      "does not begin with YUV4MPEG2",
		"YUV4MPEG2 W0 H4\n":                       `width "0" must be a whole number of pixels, at least 1`,
		"YUV4MPEG2 W-4 H4\n":                      `width "-4"`,
		"YUV4MPEG2 W4 Hx\n":                       `height "x"`,
		"YUV4MPEG2 W4\n":                          "4 x 0 px",
		"YUV4MPEG2 W99999999999999999999":         "has no first line",
		"YUV4MPEG2 W20000 H2\n":                   "at most 16384 px a side",
		"YUV4MPEG2 W16000 H16000\n":               "100 million",
		"YUV4MPEG2 W4 H4 F0:1\n":                  "rate F0:1 must be two whole numbers",
		"YUV4MPEG2 W4 H4 F25:0\n":                 "rate F25:0",
		"YUV4MPEG2 W4 H4 F-25:1\n":                "rate F-25:1",
		"YUV4MPEG2 W4 H4 F25\n":                   "rate F25",
		"YUV4MPEG2 W4 H4 C999\n":                  `colour space C"999" is none that is read`,
		"YUV4MPEG2 W4 H4 C420p11\n":               "colour space",
		"YUV4MPEG2 W4 H4 Cmonop10\n":              "colour space",
		"YUV4MPEG2 W4 H4 C42010\n":                "colour space",
		"YUV4MPEG2 W4 H4 Ixyz\n":                  `interlacing "xyz"`,
		"YUV4MPEG2 " + strings.Repeat("X", 1<<20): "more than 4096 bytes",
	} {
		_, err := y4m.NewReader("a.y4m", strings.NewReader(text))
		assert.ErrorContains(t, err, want, "%.60q", text)
		assert.ErrorContains(t, err, "a.y4m")
	}
}

// Cut anywhere, the frames before are whole, and it is told where it was cut.
func TestCutAnywhere(t *testing.T) {
	whole := written("YUV4MPEG2 W3 H2 F25:1 C420jpeg", false, 4, []int{1, 2, 3, 4, 5, 6}, []int{7, 8, 9, 10, 11, 12})
	head := bytes.IndexByte(whole, '\n') + 1
	first := head + len("FRAME\n") + 10
	for n := head; n < len(whole); n++ {
		got, err := read(opened(t, whole[:n]))
		if n == head || n == first {
			require.Equal(t, io.EOF, err)
			continue
		}
		var cut *odd.Cut
		require.ErrorAs(t, err, &cut, "cut at %d", n)
		assert.Equal(t, int64(n), cut.Byte)
		want := 0
		if n > first {
			want = 1
		}
		assert.Equal(t, want, cut.Frames)
		assert.Len(t, got, want)
	}
}

func TestFramesRefused(t *testing.T) {
	head := "YUV4MPEG2 W1 H1 F25:1 Cmono\n"
	_, err := read(opened(t, []byte(head+"FRAME\nxFROME\nx")))
	assert.EqualError(t, err, `a.y4m: frame 1 begins with "FROME" at byte 35 in place of FRAME`)
	_, err = read(opened(t, []byte(head+"FRAME"+strings.Repeat(" ", 5000)+"\nx")))
	assert.ErrorContains(t, err, "a line has more than 4096 bytes")
	r, err := y4m.NewReader("a.y4m", io.MultiReader(strings.NewReader(head+"FRAME\n"), iotest.ErrReader(errors.New("the cable is out"))))
	require.NoError(t, err)
	_, err = read(r)
	assert.ErrorContains(t, err, "the cable is out")
}

func TestRemarks(t *testing.T) {
	kinds := func(head string) (out []odd.Kind) {
		for _, r := range opened(t, []byte(head+"\n")).Remarks {
			out = append(out, r.Kind)
		}
		return out
	}
	assert.Equal(t, []odd.Kind{odd.Interlaced}, kinds("YUV4MPEG2 W1 H1 F25:1 It XCOLORRANGE=FULL"))
	assert.Equal(t, []odd.Kind{odd.Levels}, kinds("YUV4MPEG2 W1 H1 F25:1 Ip"))
	assert.Equal(t, []odd.Kind{odd.Rate}, kinds("YUV4MPEG2 W1 H1 F0:0 Ip XCOLORRANGE=LIMITED"))
	assert.Empty(t, kinds("YUV4MPEG2 W1 H1 F25:1 I? XCOLORRANGE=LIMITED A0:0 XYSCSS=420JPEG"))
}

func TestCount(t *testing.T) {
	data := written("YUV4MPEG2 W1 H1 F25:1 Cmono", false, 0, []int{1})
	assert.Equal(t, 1, opened(t, data).Count(int64(len(data))))
	assert.Equal(t, 0, opened(t, data).Count(int64(len(data)-1)), "it was cut")
	assert.Equal(t, 0, opened(t, data).Count(0))
}

// Passing over frames leaves the next where it is.
func TestPassedOver(t *testing.T) {
	r := opened(t, written("YUV4MPEG2 W2 H1 F25:1 C444p10 XCOLORRANGE=FULL", true, 4, []int{1, 2}, []int{1023, 0}))
	require.NoError(t, r.Read(nil))
	got, err := read(r)
	require.Equal(t, io.EOF, err)
	assert.Equal(t, [][]float32{{1, 0}}, got)
}

func FuzzReader(f *testing.F) {
	f.Add(written("YUV4MPEG2 W3 H2 F25:1 C420jpeg", false, 4, []int{1, 2, 3, 4, 5, 6}))
	f.Add(written("YUV4MPEG2 W1 H1 F24000:1001 Ip A1:1 Cmono16 XCOLORRANGE=FULL", true, 0, []int{1}, []int{2}))
	f.Add([]byte("YUV4MPEG2 W9 H9 F0:0 C444alpha\nFRAME It\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := y4m.NewReader("f", bytes.NewReader(data))
		if err != nil {
			return
		}
		require.NoError(t, odd.CheckSize("f", r.Header.Width, r.Header.Height))
		frames, rows := 0, 0
		for err == nil {
			if err = r.Read(func(y int, row []float32) { rows++ }); err == nil {
				frames++
			}
		}
		require.GreaterOrEqual(t, rows, frames*r.Header.Height)
		require.LessOrEqual(t, int64(frames)*(r.Header.Luma()+r.Header.Chroma()), int64(len(data)))
		var cut *odd.Cut
		if errors.As(err, &cut) {
			require.Equal(t, frames, cut.Frames)
			require.LessOrEqual(t, cut.Byte, int64(len(data)))
		}
	})
}

func BenchmarkRead(b *testing.B) {
	data := written("YUV4MPEG2 W1920 H1080 F24:1 C420jpeg", false, 1920*1080/2, make([]int, 1920*1080))
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		r := opened(b, data)
		require.NoError(b, r.Read(func(int, []float32) {}))
	}
}

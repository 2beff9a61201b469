package preview_test

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/png"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/plan/sample"
	"seamrail/plot/preview"
)

func written(t *testing.T, f *preview.Finder, every int64) ([]byte, preview.Animation) {
	t.Helper()
	var b bytes.Buffer
	a, err := f.WriteLoop(&b, every)
	require.NoError(t, err)
	return b.Bytes(), a
}

// chunk is one chunk of a PNG, read here by hand.
type chunk struct {
	name string
	data []byte
}

func chunks(t *testing.T, file []byte) []chunk {
	t.Helper()
	require.Equal(t, "\x89PNG\r\n\x1a\n", string(file[:8]))
	var out []chunk
	for rest := file[8:]; len(rest) > 0; {
		n := binary.BigEndian.Uint32(rest)
		c := chunk{string(rest[4:8]), rest[8 : 8+n]}
		require.Equal(t, crc32.ChecksumIEEE(rest[4:8+n]), binary.BigEndian.Uint32(rest[8+n:]), c.name)
		out, rest = append(out, c), rest[12+n:]
	}
	return out
}

// W3C PNG, third edition: acTL holds the frames and the plays, 0 for ever; fcTL
// and fdAT are numbered in one sequence; a delay is at bytes 20 to 23 of fcTL.
func TestLoopIsAnAnimatedPNG(t *testing.T) {
	m := shown(t, "120000/1001", "24000/1001", "", 5)
	file, a := written(t, finder(t, m, lantern(), 32), 1)
	assert.Equal(t, 5, a.Pictures)
	assert.Zero(t, a.Off.Sign())
	assert.Equal(t, "1001/4800", a.Seconds.String())
	sequence, controls := uint32(0), 0
	for _, c := range chunks(t, file) {
		switch c.name {
		case "acTL":
			assert.Equal(t, []byte{0, 0, 0, 5, 0, 0, 0, 0}, c.data)
		case "fcTL":
			controls++
			assert.EqualValues(t, 1001, binary.BigEndian.Uint16(c.data[20:]))
			assert.EqualValues(t, 24000, binary.BigEndian.Uint16(c.data[22:]))
			fallthrough
		case "fdAT":
			assert.Equal(t, sequence, binary.BigEndian.Uint32(c.data))
			sequence++
		}
	}
	assert.Equal(t, 5, controls)
}

// What comes out of the file is what the finder shows, for as long.
func TestLoopHoldsTheFrames(t *testing.T) {
	f := finder(t, turning(t, 1), lantern(), 64)
	file, _ := written(t, f, 5)
	got := shownBy(t, file)
	require.Len(t, got, 5)
	for i, frame := range got {
		same(t, f.Frame(int64(5*i)), frame.img)
	}
	assert.Equal(t, [2]uint16{5, 24}, got[0].delay)
	assert.Equal(t, [2]uint16{1, 6}, got[4].delay, "four of 24")
}

// still is one picture of an animation.
type still struct {
	delay [2]uint16
	img   image.Image
}

// shownBy takes an animation apart: the data after each fcTL are a PNG under the head
// of the file.
func shownBy(t *testing.T, file []byte) []still {
	t.Helper()
	list := chunks(t, file)
	var out []still
	var data []byte
	shown := func() {
		if data == nil {
			return
		}
		img, err := png.Decode(bytes.NewReader(plain(list[0], chunk{"IDAT", data}, chunk{name: "IEND"})))
		require.NoError(t, err)
		out[len(out)-1].img, data = img, nil
	}
	for _, c := range list {
		switch c.name {
		case "fcTL":
			shown()
			assert.Equal(t, list[0].data[:8], c.data[4:12], "every picture fills the canvas")
			assert.Equal(t, make([]byte, 8), c.data[12:20], "from its corner")
			assert.Equal(t, []byte{0, 0}, c.data[24:], "disposed of by none, blended as source")
			num, den := binary.BigEndian.Uint16(c.data[20:]), binary.BigEndian.Uint16(c.data[22:])
			out = append(out, still{delay: [2]uint16{num, den}})
		case "IDAT":
			assert.Len(t, out, 1, "only the first picture is one without animation")
			data = append(data, c.data...)
		case "fdAT":
			assert.Greater(t, len(out), 1)
			data = append(data, c.data[4:]...)
		}
	}
	shown()
	assert.Equal(t, "IEND", list[len(list)-1].name)
	return out
}

// plain is a PNG of chunks.
func plain(list ...chunk) []byte {
	out := []byte("\x89PNG\r\n\x1a\n")
	for _, c := range list {
		out = binary.BigEndian.AppendUint32(out, uint32(len(c.data)))
		body := append([]byte(c.name), c.data...)
		out = binary.BigEndian.AppendUint32(append(out, body...), crc32.ChecksumIEEE(body))
	}
	return out
}

// Noise does not pack, so each picture is in several chunks.
func TestFilmOfSeveralChunksAPicture(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	var pictures []image.Image
	for range 3 {
		noise := image.NewRGBA(image.Rect(0, 0, 200, 150))
		for i := range noise.Pix {
			noise.Pix[i] = uint8(r.Uint32()) | uint8(i%4/3*0xff)
		}
		pictures = append(pictures, noise)
	}
	var b bytes.Buffer
	require.NoError(t, preview.WriteFilm(&b, preview.Delay{Num: 1, Den: 24}, pictures...))
	assert.Greater(t, bytes.Count(b.Bytes(), []byte("fdAT")), 4)
	for i, s := range shownBy(t, b.Bytes()) {
		same(t, pictures[i].(*image.RGBA), s.img)
	}
}

func same(t *testing.T, want *image.RGBA, got image.Image) {
	t.Helper()
	require.Equal(t, want.Rect, got.Bounds())
	for y := range want.Rect.Dy() {
		for x := range want.Rect.Dx() {
			r, g, b, _ := got.At(x, y).RGBA()
			w := want.RGBAAt(x, y)
			require.Equal(t, [3]uint8{w.R, w.G, w.B}, [3]uint8{uint8(r >> 8), uint8(g >> 8), uint8(b >> 8)}, "%d, %d", x, y)
		}
	}
}

// A frame of 1001/120000 s does not fit: 720 of them are off by as much as 720
// times the error of one, and that is told.
func TestLoopTellsWhatDoesNotFit(t *testing.T) {
	_, a := written(t, finder(t, shown(t, "120000/1001", "120000/1001", "", 720), lantern(), 32), 1)
	off := 720 * (342.0/40999 - 1001.0/120000)
	assert.InDelta(t, off, a.Off.Float(), 1e-12)
	assert.NotZero(t, a.Off.Sign())
}

func TestLoopOfOnePictureIsAPNG(t *testing.T) {
	f := finder(t, shown(t, "24", "24", "", 1), lantern(), 32)
	file, _ := written(t, f, 1)
	for _, c := range chunks(t, file) {
		assert.NotContains(t, []string{"acTL", "fcTL", "fdAT"}, c.name)
	}
	got, err := png.Decode(bytes.NewReader(file))
	require.NoError(t, err)
	same(t, f.Frame(0), got)
}

func TestLoopRefuses(t *testing.T) {
	_, err := finder(t, turning(t, 1), lantern(), 32).WriteLoop(&bytes.Buffer{}, 0)
	require.ErrorContains(t, err, "every 0")
	_, err = finder(t, shown(t, "1/70000", "1/70000", "", 3), lantern(), 32).WriteLoop(&bytes.Buffer{}, 1)
	require.ErrorContains(t, err, "70000 s")
}

func TestLoopHandsOnErrors(t *testing.T) {
	f := finder(t, turning(t, 1), lantern(), 32)
	file, _ := written(t, f, 6)
	for _, room := range []int{0, 7, 40, len(file) / 2, len(file) - 1} {
		_, err := f.WriteLoop(&sample.Broken{Room: room}, 6)
		assert.ErrorIs(t, err, sample.ErrFull, "after %d bytes", room)
	}
}

// decoderVariable asks for the test that needs apngdis, the decoder of Debian's
// package of that name, which shares no code with what writes the file.
const decoderVariable = "SEAMRAIL_APNG"

func TestDecoderReadsTheDelays(t *testing.T) {
	if os.Getenv(decoderVariable) == "" {
		t.Skipf("set %s=1 to read animations back with apngdis", decoderVariable)
	}
	for _, c := range []struct{ playback, delay string }{
		{"24000/1001", "1001/24000"}, {"30000/1001", "1001/30000"}, {"60000/1001", "1001/60000"},
		{"24", "1/24"}, {"25", "1/25"}, {"1/2", "2/1"}, {"120000/1001", "342/40999"},
	} {
		f := finder(t, shown(t, c.playback, c.playback, "", 7), lantern(), 48)
		file, _ := written(t, f, 1)
		folder := t.TempDir()
		require.NoError(t, os.WriteFile(filepath.Join(folder, "loop.png"), file, 0o600))
		cmd := exec.Command("apngdis", "loop.png")
		cmd.Dir = folder
		out, err := cmd.CombinedOutput()
		require.NoError(t, err, "apngdis must be installed and accept the file:\n%s", out)
		for k := range 7 {
			name := filepath.Join(folder, fmt.Sprintf("apngframe%d", k+1))
			text, err := os.ReadFile(name + ".txt")
			require.NoError(t, err)
			assert.Equal(t, "delay="+c.delay, strings.TrimSpace(string(text)))
			data, err := os.ReadFile(name + ".png")
			require.NoError(t, err)
			got, err := png.Decode(bytes.NewReader(data))
			require.NoError(t, err)
			same(t, f.Frame(int64(k)), got)
		}
	}
}

func BenchmarkWriteLoop(b *testing.B) {
	f := finder(b, turning(b, 1.0/6), lantern(), 320)
	for b.Loop() {
		_, _ = f.WriteLoop(discard{}, 1)
	}
	b.ReportMetric(24*float64(b.N)/b.Elapsed().Seconds(), "frames/s")
}

type discard struct{}

func (discard) Write(p []byte) (int, error) { return len(p), nil }

package preview_test

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/kettek/apng"
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

// What comes out of the file is what the finder shows.
func TestLoopHoldsTheFrames(t *testing.T) {
	f := finder(t, turning(t, 1), lantern(), 64)
	file, _ := written(t, f, 5)
	got, err := apng.DecodeAll(bytes.NewReader(file))
	require.NoError(t, err)
	require.Len(t, got.Frames, 5)
	for i, frame := range got.Frames {
		same(t, f.Frame(int64(5*i)), frame.Image)
	}
	assert.Equal(t, [2]uint16{5, 24}, [2]uint16{got.Frames[0].DelayNumerator, got.Frames[0].DelayDenominator})
	assert.Equal(t, [2]uint16{1, 6}, [2]uint16{got.Frames[4].DelayNumerator, got.Frames[4].DelayDenominator}, "four of 24")
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

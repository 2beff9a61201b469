package stills_test

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/tiff"

	"seamrail/cmd/internal/film/stills"
)

// grey is a picture of one brightness.
func grey(width, height int, v uint8) image.Image {
	img := image.NewGray(image.Rect(0, 0, width, height))
	for i := range img.Pix {
		img.Pix[i] = v
	}
	return img
}

// save writes a picture in the form that its name ends with.
func save(t testing.TB, path string, img image.Image) {
	t.Helper()
	var b bytes.Buffer
	var err error
	switch filepath.Ext(path) {
	case ".jpg":
		err = jpeg.Encode(&b, img, &jpeg.Options{Quality: 100})
	case ".tif":
		err = tiff.Encode(&b, img, &tiff.Options{Compression: tiff.Deflate})
	default:
		err = png.Encode(&b, img)
	}
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, b.Bytes(), 0o600))
}

// series is a folder of stills, each as bright as its number.
func series(t testing.TB, n int, ending string) string {
	dir := t.TempDir()
	for i := range n {
		save(t, filepath.Join(dir, fmt.Sprintf("a_%d%s", i, ending)), grey(4, 3, uint8(i)))
	}
	return dir
}

func reader(t testing.TB, dir string) *stills.Reader {
	t.Helper()
	files, err := stills.Folder(dir)
	require.NoError(t, err)
	r, err := stills.NewReader(dir, files)
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, r.Close()) })
	return r
}

// first is the first pixel of the next still.
func first(r *stills.Reader) (v float32, err error) {
	err = r.Read(func(y int, row []float32) {
		if y == 0 {
			v = row[0]
		}
	})
	return v, err
}

// Stills come in order, though two are decoded at once, and passing over some leaves the
// others where they are.
func TestInOrder(t *testing.T) {
	for _, ending := range []string{".png", ".tif", ".jpg"} {
		r := reader(t, series(t, 30, ending))
		assert.Equal(t, "a_10"+ending, r.Name(10))
		assert.Equal(t, "", r.Name(-1))
		assert.Equal(t, "", r.Name(30))
		for k := range 30 {
			if k%7 == 3 || k < 3 {
				require.NoError(t, r.Read(nil))
				continue
			}
			v, err := first(r)
			require.NoError(t, err)
			require.InDelta(t, float64(k)/255, float64(v), 1e-6)
		}
		_, err := first(r)
		assert.Equal(t, io.EOF, err)
		assert.Equal(t, io.EOF, r.Read(nil))
	}
}

func TestSixteenBits(t *testing.T) {
	for _, ending := range []string{".png", ".tif"} {
		dir := t.TempDir()
		img := image.NewGray16(image.Rect(0, 0, 2, 2))
		img.SetGray16(0, 0, color.Gray16{Y: 0x1235})
		save(t, filepath.Join(dir, "a1"+ending), img)
		r := reader(t, dir)
		assert.Equal(t, 16, r.Bits)
		v, err := first(r)
		require.NoError(t, err)
		assert.InDelta(t, 0x1235/65535., v, 1e-8)
	}
}

// What is wrong with a still names its file, and comes when it is its turn.
func TestBroken(t *testing.T) {
	dir := series(t, 6, ".png")
	path := filepath.Join(dir, "a_3.png")
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	for name, c := range map[string]struct {
		spoil func()
		want  string
	}{
		"cut":   {func() { require.NoError(t, os.WriteFile(path, data[:len(data)-20], 0o600)) }, "a_3.png is broken: png: invalid format: unexpected EOF"},
		"empty": {func() { require.NoError(t, os.WriteFile(path, nil, 0o600)) }, "a_3.png is no still that is read (PNG, JPEG, TIFF)"},
		"text":  {func() { require.NoError(t, os.WriteFile(path, []byte("hello"), 0o600)) }, "a_3.png is no still that is read"},
		"damaged": {func() {
			require.NoError(t, os.WriteFile(path, append(bytes.Clone(data[:45]), make([]byte, 40)...), 0o600))
		}, "a_3.png is broken: flate: corrupt input"},
		"other":    {func() { save(t, path, grey(4, 2, 3)) }, "a_3.png has 4 x 2 px, and those before it 4 x 3"},
		"wider":    {func() { save(t, path, grey(5, 3, 3)) }, "a_3.png has 5 x 3 px, and those before it 4 x 3"},
		"gone":     {func() { require.NoError(t, os.Remove(path)) }, "cannot read " + path + ": no such file"},
		"no plain": {func() { require.NoError(t, os.Remove(path)); require.NoError(t, os.Mkdir(path, 0o700)) }, "a_3.png is a folder"},
	} {
		t.Run(name, func(t *testing.T) {
			files, err := stills.Folder(dir)
			require.NoError(t, err)
			require.Len(t, files, 6)
			c.spoil()
			r, err := stills.NewReader(dir, files)
			require.NoError(t, err)
			for range 3 {
				_, err := first(r)
				require.NoError(t, err)
			}
			_, err = first(r)
			assert.ErrorContains(t, err, c.want)
			assert.NoError(t, r.Close())
			assert.NoError(t, os.RemoveAll(path))
			assert.NoError(t, os.WriteFile(path, data, 0o600))
		})
	}
}

func TestFound(t *testing.T) {
	dir := series(t, 3, ".png")
	for _, other := range []string{"notes.txt", ".a_9.png", "a_7.mov"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, other), nil, 0o600))
	}
	require.NoError(t, os.Mkdir(filepath.Join(dir, "a_8.png"), 0o700))
	save(t, filepath.Join(dir, "b_1.JPEG"), grey(4, 3, 1))
	files, err := stills.Folder(dir)
	require.NoError(t, err)
	assert.Len(t, files, 4)
	files, err = stills.Matching(filepath.Join(dir, "a_*"))
	require.NoError(t, err)
	assert.Len(t, files, 3)
	files, err = stills.Matching(filepath.Join(dir, "a_%d.png"))
	require.NoError(t, err)
	assert.Len(t, files, 3)

	_, err = stills.Matching(filepath.Join(dir, "c_*"))
	assert.ErrorContains(t, err, "no still (PNG, JPEG, TIFF) is called as")
	_, err = stills.Matching(filepath.Join(dir, "*", "c_*"))
	assert.ErrorContains(t, err, "only the last part may have one")
	_, err = stills.Matching(filepath.Join(dir, "c_%q"))
	assert.ErrorContains(t, err, "is no number")
	_, err = stills.Matching(filepath.Join(dir, "none", "c_*"))
	assert.ErrorContains(t, err, "cannot read the folder")
	_, err = stills.Folder(t.TempDir())
	assert.ErrorContains(t, err, "has no stills (PNG, JPEG, TIFF)")
}

// A decoder that panics is a broken file, not the end of the program.
func TestADecoderThatPanics(t *testing.T) {
	image.RegisterFormat("panic", "PANIC", func(io.Reader) (image.Image, error) { panic("index out of range") },
		func(io.Reader) (image.Config, error) {
			return image.Config{ColorModel: color.GrayModel, Width: 4, Height: 3}, nil
		})
	dir := series(t, 2, ".png")
	require.NoError(t, os.WriteFile(filepath.Join(dir, "a_1.png"), []byte("PANIC"), 0o600))
	r := reader(t, dir)
	require.NoError(t, r.Read(func(int, []float32) {}))
	assert.ErrorContains(t, r.Read(func(int, []float32) {}), "a_1.png is broken: its decoder gave up: index out of range")
}

// A head that lies about its size is refused before room is made for it.
func TestHugeStillsAreRefused(t *testing.T) {
	dir := t.TempDir()
	head := []byte("IHDR\x00\x00\xff\xff\x00\x00\xff\xff\x08\x00\x00\x00\x00")
	head = binary.BigEndian.AppendUint32(head, crc32.ChecksumIEEE(head))
	head = append([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\r"), head...)
	path := filepath.Join(dir, "a_1.png")
	require.NoError(t, os.WriteFile(path, head, 0o600))
	files, err := stills.Folder(dir)
	require.NoError(t, err)
	_, err = stills.NewReader(dir, files)
	require.ErrorContains(t, err, "a_1.png has frames of 65535 x 65535 px; at most 16384 px a side")
}

func BenchmarkRead(b *testing.B) {
	dir := b.TempDir()
	img := image.NewRGBA(image.Rect(0, 0, 1920, 1080))
	for i := range img.Pix {
		img.Pix[i] = uint8(i>>9+i>>4) | uint8(i%4/3*0xff)
	}
	const count = 8
	for i := range count {
		save(b, filepath.Join(dir, fmt.Sprintf("a_%d.png", i)), img)
	}
	files, err := stills.Folder(dir)
	require.NoError(b, err)
	frames := 0
	for b.Loop() {
		r, err := stills.NewReader(dir, files)
		require.NoError(b, err)
		for r.Read(func(int, []float32) {}) == nil {
			frames++
		}
	}
	b.ReportMetric(float64(frames)/b.Elapsed().Seconds(), "frames/s")
}

package film_test

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/film"
	"seamrail/cmd/internal/film/decoder"
	"seamrail/cmd/internal/film/luma"
	"seamrail/cmd/internal/film/odd"
	"seamrail/motion/footage"
)

// realDecoder is the variable that asks for the tests with a decoder that is installed.
const realDecoder = "SEAMRAIL_FFMPEG"

// ffmpeg runs it on a text as its standard input, in a folder.
func ffmpeg(t *testing.T, dir string, in []byte, args ...string) {
	t.Helper()
	cmd := exec.Command("ffmpeg", append([]string{"-v", "error", "-y"}, args...)...)
	cmd.Dir, cmd.Stdin = dir, bytes.NewReader(in)
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", out)
}

func wantsDecoder(t *testing.T) {
	if os.Getenv(realDecoder) == "" {
		t.Skipf("set %s where ffmpeg is installed", realDecoder)
	}
}

// The clip that is encoded: soft waves that wander, so that a codec has something to do and
// nothing that it has to lose.
const (
	wide, high = 320, 240
	length     = 24
)

// wave is how bright a pixel of frame k is, 0 to 1.
func wave(k, x, y int) float64 {
	a, b := float64(x+3*k)/17, float64(y-2*k)/23
	return 0.5 + 0.35*math.Sin(a)*math.Cos(b) + 0.1*math.Sin(a/3+b/5)
}

// clip is it as raw video of so many bits at 24000/1001 frames a second, in the range of
// film, with chroma that changes as well; and the luma that it has.
func clip(bits int) (data []byte, want [][]float32) {
	var b bytes.Buffer
	name := "C420jpeg"
	if bits > 8 {
		name = fmt.Sprintf("C420p%d", bits)
	}
	fmt.Fprintf(&b, "YUV4MPEG2 W%d H%d F24000:1001 Ip A1:1 %s XCOLORRANGE=LIMITED\n", wide, high, name)
	times := float64(int(1) << (bits - 8))
	put := func(v float64) {
		code := int(math.Round(v * times))
		b.WriteByte(byte(code))
		if bits > 8 {
			b.WriteByte(byte(code >> 8))
		}
	}
	for k := range length {
		b.WriteString("FRAME\n")
		var frame []float32
		for i := range wide * high {
			code := 16 + 219*wave(k, i%wide, i/wide)
			put(code)
			frame = append(frame, float32((math.Round(code*times)-16*times)/(219*times)))
		}
		for i := range wide * high / 2 {
			put(128 + 40*math.Sin(float64(i+k)/900))
		}
		want = append(want, frame)
	}
	return b.Bytes(), want
}

// off is the root mean square by which a take differs from what it should be, and how many
// frames it had.
func off(t *testing.T, take *film.Take, want [][]float32) (rms float64, n int) {
	t.Helper()
	var g footage.Gray
	sum, count := 0.0, 0
	for {
		err := take.Next(&g)
		if err == io.EOF {
			return math.Sqrt(sum / float64(count)), n
		}
		require.NoError(t, err)
		require.Less(t, n, len(want))
		for i, v := range g.Pix {
			sum += math.Pow(float64(v-want[n][i]), 2)
			count++
		}
		n++
	}
}

// What real encoders make of a clip is read back: its luma as near as the codec keeps it, its
// rate and its number of frames exactly, its timecode where the container has one.
func TestRealFilm(t *testing.T) {
	wantsDecoder(t)
	const lossless = 1e-6 // float32 of a code
	for _, c := range []struct {
		name, encoder, file string
		bits                int
		args                string
		most                float64 // root mean square
		remarks             []odd.Kind
	}{
		{"H.264", "libx264", "a.mov", 8, "-crf 12 -timecode 01:02:03:04", 0.006, nil},
		{"H.264, poor", "libx264", "b.mp4", 8, "-crf 38", 0.03, nil},
		{"H.265, 10 bits", "libx265", "c.mp4", 10, "-crf 12 -x265-params log-level=none", 0.006, nil},
		{"motion JPEG", "mjpeg", "d.avi", 8, "-q:v 2 -pix_fmt yuvj422p", 0.008, nil},
		{"motion JPEG, poor", "mjpeg", "d2.avi", 8, "-q:v 20 -pix_fmt yuvj420p", 0.03, nil},
		{"FFV1", "ffv1", "e.mkv", 8, "", lossless, nil},
		{"FFV1, 10 bits", "ffv1", "f.mkv", 10, "", lossless, nil},
		{"FFV1, 16 bits", "ffv1", "f16.mkv", 16, "", lossless, nil},
		{"ProRes", "prores_ks", "g.mov", 10, "-profile:v hq -timecode 10:00:00:00", 0.006, nil},
		{"packed", "rawvideo", "h.mov", 8, "-pix_fmt uyvy422 -timecode 00:00:10:00", lossless, nil},
		{"two planes", "rawvideo", "i.nut", 8, "-pix_fmt nv12", lossless, nil},
		{"odd size", "ffv1", "j.mkv", 8, "-vf crop=319:239:0:0:exact=1", math.Inf(1), nil},
		{"interlaced", "libx264", "k.mov", 8, "-crf 12 -flags +ilme+ildct -top 1 -vf setfield=tff", 0.008, []odd.Kind{odd.Interlaced}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if !encoderThere(t, c.encoder) {
				t.Skipf("this ffmpeg has no %s", c.encoder)
			}
			data, want := clip(c.bits)
			dir := t.TempDir()
			args := append([]string{"-i", "-", "-c:v", c.encoder}, strings.Fields(c.args)...)
			ffmpeg(t, dir, data, append(args, c.file)...)
			take := opened(t, filepath.Join(dir, c.file), film.Options{Decoder: exec.LookPath})
			a := take.About()
			assert.Equal(t, "24000/1001", a.Rate.String())
			assert.Equal(t, c.bits, a.Bits)
			_, code, _ := strings.Cut(c.args, "-timecode ")
			assert.Equal(t, code, a.Start)
			if math.IsInf(c.most, 1) {
				assert.Equal(t, [2]int{wide - 1, high - 1}, [2]int{a.Width, a.Height})
				return
			}
			rms, n := off(t, take, want)
			assert.Equal(t, length, n)
			assert.Less(t, rms, c.most)
			assert.Equal(t, c.remarks, kinds(take), "%v", take.Remarks())
			t.Logf("off by %.6f (root mean square)", rms)
		})
	}
}

func encoderThere(t *testing.T, name string) bool {
	out, err := exec.Command("ffmpeg", "-hide_banner", "-encoders").Output()
	require.NoError(t, err)
	return strings.Contains(string(out), " "+name+" ")
}

// What ffmpeg writes of the forms that are read without it is read back as well, in every
// form of YUV4MPEG2, and as animated PNG.
func TestWhatFfmpegWritesIsRead(t *testing.T) {
	wantsDecoder(t)
	for _, c := range []struct {
		args string
		bits int
		most float64
	}{
		{"-pix_fmt yuv420p a.y4m", 8, 1e-6},
		{"-pix_fmt yuv411p a.y4m", 8, 1e-6},
		{"-pix_fmt yuv422p a.y4m", 8, 1e-6},
		{"-pix_fmt yuv444p a.y4m", 8, 1e-6},
		{"-strict -1 -pix_fmt yuv420p10 a.y4m", 10, 1e-6},
		{"-strict -1 -pix_fmt yuv422p12 a.y4m", 12, 1e-6},
		{"-strict -1 -pix_fmt yuv444p16 a.y4m", 16, 1e-6},
		{"-strict -1 -pix_fmt yuvj420p -color_range pc a.y4m", 8, 1 / 255.},
		{"-pix_fmt gray -color_range pc a.y4m", 8, 1 / 255.},
		{"-strict -1 -pix_fmt gray10 -color_range pc a.y4m", 10, 1 / 255.},
		{"-pix_fmt gray -c:v apng -f apng -plays 0 a.png", 8, 1 / 255.},
		{"-pix_fmt gray16be -c:v apng -f apng a.png", 16, 1 / 255.},
	} {
		t.Run(c.args, func(t *testing.T) {
			data, want := clip(8)
			dir := t.TempDir()
			args := append([]string{"-i", "-"}, strings.Fields(c.args)...)
			ffmpeg(t, dir, data, args...)
			take := opened(t, filepath.Join(dir, args[len(args)-1]), film.Options{})
			assert.Equal(t, c.bits, take.About().Bits)
			assert.Equal(t, "24000/1001", take.About().Rate.String())
			assert.Equal(t, length, take.About().Frames)
			rms, n := off(t, take, want)
			assert.Equal(t, length, n)
			assert.Less(t, rms, c.most)
			t.Logf("off by %.6f: %v", rms, take.Remarks())
		})
	}
}

// Animated PNG whose pictures cover only what changes is the same film as raw video of it.
func TestAnimationsOfPartsAgainstRawVideo(t *testing.T) {
	wantsDecoder(t)
	dir := t.TempDir()
	for _, to := range []string{"a.y4m", "-c:v apng -f apng a.png"} {
		args := []string{"-f", "lavfi", "-i", "testsrc=s=160x120:r=25:d=2", "-pix_fmt", "gray", "-color_range", "pc"}
		ffmpeg(t, dir, nil, append(args, strings.Fields(to)...)...)
	}
	file, err := os.ReadFile(filepath.Join(dir, "a.png"))
	require.NoError(t, err)
	whole := []byte("\x00\x00\x00\xa0\x00\x00\x00\x78") // 160 x 120, in IHDR and in each control
	assert.Less(t, bytes.Count(file, whole), bytes.Count(file, []byte("fcTL"))/2, "most cover a part")
	parts := opened(t, filepath.Join(dir, "a.png"), film.Options{})
	raw := opened(t, filepath.Join(dir, "a.y4m"), film.Options{})
	var g, want footage.Gray
	for range 50 {
		require.NoError(t, parts.Next(&g))
		require.NoError(t, raw.Next(&want))
		require.Equal(t, want.Pix, g.Pix)
	}
	assert.Equal(t, io.EOF, parts.Next(&g))
	assert.Equal(t, io.EOF, raw.Next(&g))
}

// Film that has no luma of its own gets that of BT.709, though ffmpeg by itself would take
// other weights.
func TestRealFilmOfThreeColours(t *testing.T) {
	wantsDecoder(t)
	var in bytes.Buffer
	var want [][]float32
	for k := range 3 {
		fmt.Fprintf(&in, "P6 %d %d 255\n", wide, high)
		var frame []float32
		for i := range wide * high {
			r, g, b := byte(i%wide/2+k), byte(i/wide), byte(i%251)
			in.Write([]byte{r, g, b})
			frame = append(frame, luma.Of(float32(r), float32(g), float32(b))/255)
		}
		want = append(want, frame)
	}
	dir := t.TempDir()
	ffmpeg(t, dir, in.Bytes(), "-f", "image2pipe", "-c:v", "ppm", "-framerate", "25", "-i", "-", "-c:v", "ffv1", "-pix_fmt", "bgr0", "a.mkv")
	take := opened(t, filepath.Join(dir, "a.mkv"), film.Options{Decoder: exec.LookPath})
	rms, n := off(t, take, want)
	assert.Equal(t, 3, n)
	assert.Less(t, rms, 1e-4, "ffmpeg's weights have 15 bits")
	assert.Equal(t, "25", take.About().Rate.String())
	t.Logf("off by %.6f (root mean square)", rms)
}

// What is said where no decoder is installed does what it says.
func TestTheCommandThatIsNamedConverts(t *testing.T) {
	wantsDecoder(t)
	data, want := clip(10)
	dir := t.TempDir()
	t.Chdir(dir)
	ffmpeg(t, dir, data, "-i", "-", "-c:v", "ffv1", "my take.mkv")
	_, err := film.Open(t.Context(), "my take.mkv", film.Options{})
	require.Error(t, err)
	_, command, _ := strings.Cut(err.Error(), `"`)
	command, _, _ = strings.Cut(command, `"`)
	assert.Equal(t, strings.Join(decoder.Convert("my take.mkv"), " "), command)
	out, err := exec.Command("sh", "-c", command).CombinedOutput()
	require.NoError(t, err, "%s", out)
	take := opened(t, "my take.y4m", film.Options{})
	rms, n := off(t, take, want)
	assert.Equal(t, length, n)
	assert.Less(t, rms, 1e-6)
	assert.Equal(t, "24000/1001", take.About().Rate.String())
}

// A file that names others on the net does not have them fetched.
func TestNothingIsFetched(t *testing.T) {
	wantsDecoder(t)
	var asked atomic.Bool
	server := httptest.NewServer(http.HandlerFunc(func(http.ResponseWriter, *http.Request) { asked.Store(true) }))
	defer server.Close()
	path := saved(t, "list.m3u8", fmt.Appendf(nil, "#EXTM3U\n#EXT-X-TARGETDURATION:1\n#EXTINF:1,\n%s/a.ts\n#EXT-X-ENDLIST\n", server.URL))
	_, err := film.Open(t.Context(), path, film.Options{Decoder: exec.LookPath})
	assert.Error(t, err)
	assert.False(t, asked.Load())
}

// Uneven frames are told, and none is left out or made up; a film that was cut gives what
// there is and tells it.
func TestRealFilmThatIsOdd(t *testing.T) {
	wantsDecoder(t)
	data, _ := clip(8)
	dir := t.TempDir()
	ffmpeg(t, dir, data, "-i", "-", "-vf", "select='not(eq(mod(n,5),2))'", "-fps_mode", "passthrough", "-c:v", "ffv1", "uneven.mkv")
	ffmpeg(t, dir, nil, "-i", "uneven.mkv", "-fps_mode", "passthrough", "-c:v", "libx264", "uneven.mp4")
	var g footage.Gray
	for _, name := range []string{"uneven.mkv", "uneven.mp4"} {
		take := opened(t, filepath.Join(dir, name), film.Options{Decoder: exec.LookPath})
		n := 0
		for take.Next(&g) == nil {
			n++
		}
		assert.Equal(t, length-5, n)
		assert.Contains(t, kinds(take), odd.Variable)
		t.Log(take.Remarks())
	}

	ffmpeg(t, dir, data, "-i", "-", "-c:v", "ffv1", "-g", "1", "whole.mkv")
	whole, err := os.ReadFile(filepath.Join(dir, "whole.mkv"))
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "cut.mkv"), whole[:len(whole)/2], 0o600))
	take := opened(t, filepath.Join(dir, "cut.mkv"), film.Options{Decoder: exec.LookPath})
	n := 0
	for err = nil; err == nil; n++ {
		err = take.Next(&g)
	}
	n--
	assert.Greater(t, n, length/4)
	assert.Less(t, n, length)
	assert.NotEmpty(t, take.Remarks())
	t.Logf("%d frames, then %v: %v", n, err, take.Remarks())
	_, err = film.Open(t.Context(), saved(t, "noise.mov", bytes.Repeat([]byte("noise"), 1000)), film.Options{Decoder: exec.LookPath})
	assert.ErrorContains(t, err, "noise.mov is no film that ffprobe can read")
}

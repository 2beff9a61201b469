package film_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/film"
	"seamrail/cmd/internal/film/decoder/fake"
	"seamrail/cmd/internal/film/odd"
	"seamrail/motion/base/exact"
	"seamrail/motion/footage"
)

func TestMain(m *testing.M) {
	fake.Main()
	os.Exit(m.Run())
}

const width, height = 6, 4

// video is YUV4MPEG2 of n frames, each full of its number.
func video(n int) []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "YUV4MPEG2 W%d H%d F24000:1001 Ip A1:1 C420jpeg XCOLORRANGE=FULL\n", width, height)
	for k := range n {
		b.WriteString("FRAME\n")
		b.Write(bytes.Repeat([]byte{byte(k)}, width*height))
		b.Write(make([]byte, width*height/2))
	}
	return b.Bytes()
}

// saved is a file of that name in a folder of its own.
func saved(t testing.TB, name string, data []byte) string {
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, data, 0o600))
	return path
}

// still is a picture full of one value.
func still(v uint8) image.Image {
	img := image.NewGray(image.Rect(0, 0, width, height))
	for i := range img.Pix {
		img.Pix[i] = v
	}
	return img
}

// folder has a PNG of each number, full of it.
func folder(t testing.TB, numbers ...int) string {
	dir := t.TempDir()
	for _, n := range numbers {
		var b bytes.Buffer
		require.NoError(t, png.Encode(&b, still(uint8(n))))
		require.NoError(t, os.WriteFile(filepath.Join(dir, fmt.Sprintf("lantern_%d.png", n)), b.Bytes(), 0o600))
	}
	return dir
}

func opened(t testing.TB, what string, o film.Options) *film.Take {
	t.Helper()
	take, err := film.Open(t.Context(), what, o)
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, take.Close()) })
	return take
}

// values are the codes of all frames, which are each of one, and the error that ends them.
func values(t testing.TB, take *film.Take) (out []int, err error) {
	t.Helper()
	var g footage.Gray
	for {
		at := take.At()
		if err := take.Next(&g); err != nil {
			return out, err
		}
		require.Equal(t, at+1, take.At())
		require.Len(t, g.Pix, g.Width*g.Height)
		for _, v := range g.Pix {
			require.InDelta(t, g.Pix[0], v, 1e-6)
		}
		out = append(out, int(g.Pix[0]*255+0.5))
	}
}

func kinds(take *film.Take) (out []odd.Kind) {
	for _, r := range take.Remarks() {
		out = append(out, r.Kind)
	}
	return out
}

func upTo(n int) (out []int) {
	for k := range n {
		out = append(out, k)
	}
	return out
}

// Every kind of recording gives the same frames, and says of itself what it knows.
func TestEveryKind(t *testing.T) {
	const n = 12
	dir := folder(t, upTo(n)...)
	mov := saved(t, "take.mov", []byte("film"))
	look := fake.Good(n).Lookup(t)
	for name, c := range map[string]struct {
		what   string
		rate   string
		frames int
		start  string
		named  string // frame 10
	}{
		"folder":      {dir, "0", n, "", "lantern_10.png"},
		"number":      {filepath.Join(dir, "lantern_%d.png"), "0", n, "", "lantern_10.png"},
		"pattern":     {filepath.Join(dir, "*"), "0", n, "", "lantern_10.png"},
		"raw":         {saved(t, "take.y4m", video(n)), "24000/1001", n, "", ""},
		"other name":  {saved(t, "take_%d.mov", video(n)), "24000/1001", n, "", ""},
		"standard in": {"-", "24000/1001", 0, "", ""},
		"film":        {mov, "24000/1001", n, "01:02:03:04", ""},
	} {
		t.Run(name, func(t *testing.T) {
			o := film.Options{Decoder: look, Stdin: bytes.NewReader(video(n))}
			take := opened(t, c.what, o)
			got, err := values(t, take)
			assert.Equal(t, io.EOF, err)
			assert.Equal(t, upTo(n), got)
			a := take.About()
			assert.Equal(t, [3]int{width, height, 8}, [3]int{a.Width, a.Height, a.Bits})
			assert.Equal(t, c.rate, a.Rate.String())
			assert.Equal(t, c.frames, a.Frames)
			assert.Equal(t, c.start, a.Start)
			assert.Equal(t, c.named, take.Name(10))
			assert.Empty(t, take.Remarks())
			assert.Equal(t, io.EOF, take.Next(&footage.Gray{}), "an end stays one")

			o.Stdin = bytes.NewReader(video(n))
			o.Frames = film.Range{First: 3, Last: 7, Bounded: true}
			part := opened(t, c.what, o)
			assert.Equal(t, 3, part.At())
			got, err = values(t, part)
			assert.Equal(t, io.EOF, err)
			assert.Equal(t, []int{3, 4, 5, 6, 7}, got)
			assert.Empty(t, part.Remarks(), "what was not asked for is not missing")
		})
	}
}

func TestRanges(t *testing.T) {
	path := saved(t, "take.y4m", video(5))
	for name, c := range map[string]struct {
		r     film.Range
		want  []int
		ends  string
		kinds []odd.Kind
	}{
		"from":     {film.Range{First: 3}, []int{3, 4}, "EOF", nil},
		"one":      {film.Range{First: 4, Last: 4, Bounded: true}, []int{4}, "EOF", nil},
		"too many": {film.Range{First: 3, Last: 9, Bounded: true}, []int{3, 4}, "EOF", []odd.Kind{odd.Fewer}},
		"at end":   {film.Range{First: 5}, nil, "EOF", nil},
		"behind":   {film.Range{First: 6}, nil, "has 5 frames; the first that is wanted is 6, counted from 0", nil},
	} {
		t.Run(name, func(t *testing.T) {
			take := opened(t, path, film.Options{Frames: c.r})
			got, err := values(t, take)
			assert.ErrorContains(t, err, c.ends)
			assert.Equal(t, c.want, got)
			assert.Equal(t, c.kinds, kinds(take))
		})
	}
}

func TestOpenRefuses(t *testing.T) {
	path := saved(t, "take.y4m", video(2))
	for name, c := range map[string]struct {
		what string
		o    film.Options
		want string
	}{
		"before 0":     {path, film.Options{Frames: film.Range{First: -1}}, "frames -1 to 0 are none"},
		"backwards":    {path, film.Options{Frames: film.Range{First: 3, Last: 2, Bounded: true}}, "frames 3 to 2 are none"},
		"region":       {path, film.Options{Region: film.Region{X: 5, Width: 2, Height: 2}}, "take.y4m: region of 2 x 2 px at 5, 0 is not within"},
		"scale":        {path, film.Options{Scale: 2}, "scale 2 must be above 0"},
		"rate":         {path, film.Options{Rate: exact.Int(-1)}, "rate -1 must be above 0"},
		"nothing":      {filepath.Join(t.TempDir(), "none.mov"), film.Options{}, "no such file"},
		"no stdin":     {"-", film.Options{}, "there is no standard input"},
		"other stdin":  {"-", film.Options{Stdin: strings.NewReader("RIFF\n")}, "standard input does not begin with YUV4MPEG2"},
		"empty":        {saved(t, "a.mov", nil), film.Options{}, "has nothing in it that can be read"},
		"broken":       {saved(t, "a.png", []byte("\x89PNG\r\n\x1a\nxxxx")), film.Options{}, "a.png"},
		"no still":     {saved(t, "a.jpg", []byte("hello")), film.Options{}, "a.jpg is no still"},
		"empty folder": {t.TempDir(), film.Options{}, "has no stills"},
		"no such":      {filepath.Join(t.TempDir(), "a_%04d.png"), film.Options{}, "no still (PNG, JPEG, TIFF) is called as"},
		"no decoder":   {saved(t, "a.mov", []byte("film")), film.Options{}, "ffmpeg is not on the PATH"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := film.Open(t.Context(), c.what, c.o)
			assert.ErrorContains(t, err, c.want)
		})
	}
	var none *film.NoDecoder
	_, err := film.Open(t.Context(), saved(t, "b.mov", []byte("film")), film.Options{})
	assert.ErrorAs(t, err, &none)
}

// A rate that is given counts, and that it differs is told.
func TestRates(t *testing.T) {
	path := saved(t, "take.y4m", video(2))
	take := opened(t, path, film.Options{Rate: exact.Int(24)})
	assert.Equal(t, "24", take.About().Rate.String())
	assert.Equal(t, []odd.Kind{odd.Rate}, kinds(take))
	assert.Contains(t, take.Remarks()[0].Text, "says 24000/1001 frames a second; 24 is taken")
	take = opened(t, path, film.Options{Rate: exact.New(24000, 1001)})
	assert.Empty(t, take.Remarks())
	take = opened(t, folder(t, 1), film.Options{Rate: exact.Int(24)})
	assert.Equal(t, "24", take.About().Rate.String())
	assert.Empty(t, take.Remarks())
}

func TestWhatIsOddIsTold(t *testing.T) {
	take := opened(t, folder(t, 1, 2, 4), film.Options{})
	got, err := values(t, take)
	assert.Equal(t, io.EOF, err)
	assert.Equal(t, []int{1, 2, 4}, got)
	assert.Equal(t, []odd.Kind{odd.Gap}, kinds(take))

	cut := opened(t, saved(t, "cut.y4m", video(3)[:200]), film.Options{})
	got, err = values(t, cut)
	var c *film.Cut
	require.ErrorAs(t, err, &c)
	assert.Equal(t, got, upTo(c.Frames))
	assert.Equal(t, []odd.Kind{odd.Truncated}, kinds(cut))
	assert.ErrorAs(t, cut.Next(&footage.Gray{}), &c, "it stays")

	d := fake.Good(3)
	d.Part, d.Code = 2, 1
	died := opened(t, saved(t, "take.mov", []byte("film")), film.Options{Decoder: d.Lookup(t)})
	got, err = values(t, died)
	require.ErrorAs(t, err, &c)
	assert.Equal(t, upTo(3), got)
	assert.Equal(t, []odd.Kind{odd.Died}, kinds(died))

	for says, kind := range map[int]odd.Kind{5: odd.Fewer, 2: odd.More} {
		d := fake.Good(says)
		d.Frames = 3
		short := opened(t, saved(t, "take.mov", []byte("film")), film.Options{Decoder: d.Lookup(t)})
		_, err = values(t, short)
		assert.Equal(t, io.EOF, err)
		assert.Equal(t, []odd.Kind{kind}, kinds(short))
	}
}

// A region at a scale, and where its pixels are.
func TestRegionAndScale(t *testing.T) {
	var b bytes.Buffer
	b.WriteString("YUV4MPEG2 W6 H4 F24:1 Cmono XCOLORRANGE=FULL\nFRAME\n")
	for i := range width * height {
		b.WriteByte(byte(i % width * 10))
	}
	take := opened(t, "-", film.Options{Stdin: &b, Region: film.Region{X: 1, Y: 1, Width: 5, Height: 2}, Scale: 0.5})
	var g footage.Gray
	require.NoError(t, take.Next(&g))
	assert.Equal(t, [2]int{2, 1}, [2]int{g.Width, g.Height})
	assert.InDeltaSlice(t, []float32{15 / 255., 35 / 255.}, g.Pix, 1e-6)
	x, y := take.Grid().Recorded(1, 0)
	assert.Equal(t, [2]float64{3.5, 1.5}, [2]float64{x, y})
	assert.Equal(t, width, take.About().Width, "as it was recorded")
}

func TestMemoryIsUsedAgain(t *testing.T) {
	take := opened(t, "-", film.Options{Stdin: bytes.NewReader(video(200))})
	var g footage.Gray
	require.NoError(t, take.Next(&g))
	first := &g.Pix[0]
	assert.LessOrEqual(t, testing.AllocsPerRun(100, func() { require.NoError(t, take.Next(&g)) }), 20.0, "the line of a frame and its words, however large frames are")
	assert.Same(t, first, &g.Pix[0])
}

func TestGivenUp(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	take, err := film.Open(ctx, saved(t, "take.y4m", video(5)), film.Options{})
	require.NoError(t, err)
	var g footage.Gray
	require.NoError(t, take.Next(&g))
	cancel()
	assert.ErrorIs(t, take.Next(&g), context.Canceled)
	require.NoError(t, take.Close())

	take, err = film.Open(t.Context(), folder(t, 1, 2, 3), film.Options{})
	require.NoError(t, err)
	require.NoError(t, take.Next(&g))
	require.NoError(t, take.Close())
	assert.Error(t, take.Next(&g))
}

// A decoder is gone once the take is closed or given up.
func TestADecoderIsGivenUp(t *testing.T) {
	d := fake.Good(2)
	d.Hangs = true
	ctx, cancel := context.WithCancel(t.Context())
	take, err := film.Open(ctx, saved(t, "take.mov", []byte("film")), film.Options{Decoder: d.Lookup(t)})
	require.NoError(t, err)
	var g footage.Gray
	require.NoError(t, take.Next(&g))
	require.NoError(t, take.Next(&g))
	go cancel()
	err = take.Next(&g)
	assert.True(t, errors.Is(err, context.Canceled), "%v", err)
	assert.NoError(t, take.Close())
}

// frames is an endless recording without a reader behind it.
type frames struct {
	head, frame []byte
	at          int
}

func (f *frames) Read(p []byte) (int, error) {
	if len(f.head) > 0 {
		n := copy(p, f.head)
		f.head = f.head[n:]
		return n, nil
	}
	n := copy(p, f.frame[f.at:])
	f.at = (f.at + n) % len(f.frame)
	return n, nil
}

func endless(wide, high int, space string, size int) *frames {
	return &frames{head: fmt.Appendf(nil, "YUV4MPEG2 W%d H%d F24:1 C%s\n", wide, high, space),
		frame: append([]byte("FRAME\n"), bytes.Repeat([]byte{90}, size)...)}
}

func benchmark(b *testing.B, in io.Reader, scale float64) {
	take := opened(b, "-", film.Options{Stdin: in, Scale: scale})
	var g footage.Gray
	n := 0
	b.ReportAllocs()
	for b.Loop() {
		require.NoError(b, take.Next(&g))
		n++
	}
	b.ReportMetric(float64(n)/b.Elapsed().Seconds(), "frames/s")
}

func BenchmarkHalf(b *testing.B) {
	benchmark(b, endless(1920, 1080, "420jpeg", 1920*1080*3/2), 0.5)
}

func BenchmarkHalf10Bits(b *testing.B) {
	benchmark(b, endless(1920, 1080, "422p10", 1920*1080*4), 0.5)
}

func BenchmarkWhole(b *testing.B) {
	benchmark(b, endless(1920, 1080, "420jpeg", 1920*1080*3/2), 1)
}

func BenchmarkTwoFifths(b *testing.B) {
	benchmark(b, endless(1920, 1080, "420jpeg", 1920*1080*3/2), 0.4)
}

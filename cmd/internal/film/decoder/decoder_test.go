package decoder_test

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/film/decoder"
	"seamrail/cmd/internal/film/decoder/fake"
	"seamrail/cmd/internal/film/odd"
)

func TestMain(m *testing.M) {
	fake.Main()
	os.Exit(m.Run())
}

// file is a film file of which only the name matters.
func file(t testing.TB) string {
	path := filepath.Join(t.TempDir(), "take.mov")
	require.NoError(t, os.WriteFile(path, []byte("film"), 0o600))
	return path
}

// read are the first pixels of all frames, and the error that ends them.
func read(f *decoder.Film) (out []float32, err error) {
	for {
		var v float32
		if err := f.Read(func(_ int, row []float32) { v = row[0] }); err != nil {
			return out, err
		}
		out = append(out, v)
	}
}

func TestDecoded(t *testing.T) {
	path := file(t)
	f, err := decoder.Open(t.Context(), path, fake.Good(40).Lookup(t), decoder.Grey)
	require.NoError(t, err)
	assert.Equal(t, path, f.About.Name)
	assert.Equal(t, [2]int{fake.Width, fake.Height}, [2]int{f.About.Width, f.About.Height})
	assert.Equal(t, "24000/1001", f.About.Rate.String())
	assert.Equal(t, "01:02:03:04", f.About.Start)
	assert.Equal(t, 40, f.About.Frames)
	assert.Equal(t, 8, f.About.Bits)
	got, err := read(f)
	assert.Equal(t, io.EOF, err)
	require.Len(t, got, 40)
	for k, v := range got {
		assert.Equal(t, float32(k)/255, v, "what is full in the file is so here, whatever grey is called")
	}
	assert.Empty(t, f.Remarks())
	assert.NoError(t, f.Close())
	assert.NoError(t, f.Close())
}

// One that knows no fps_mode is asked again.
func TestAnOldDecoder(t *testing.T) {
	d := fake.Good(3)
	d.Old = true
	f, err := decoder.Open(t.Context(), file(t), d.Lookup(t), decoder.Grey)
	require.NoError(t, err)
	got, err := read(f)
	assert.Equal(t, io.EOF, err)
	assert.Len(t, got, 3)
}

// A name that begins as a flag does is a name, and so is one that looks like an address.
func TestNamesAreNoFlags(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, name := range []string{"-version", "concat:a|b", "-"} {
		require.NoError(t, os.WriteFile(name, []byte("film"), 0o600))
		f, err := decoder.Open(t.Context(), name, fake.Good(1).Lookup(t), decoder.Grey)
		require.NoError(t, err, name)
		assert.NoError(t, f.Close())
	}
}

func TestDies(t *testing.T) {
	good := fake.Good(5)
	for name, c := range map[string]struct {
		with   func(d *fake.Decoder)
		frames int
		want   string
	}{
		"midway":       {func(d *fake.Decoder) { d.Part, d.Words, d.Code = 7, "out of\x1b[31m memory\nreally", 3 }, 5, "take.mov is cut off: the decoder ended (exit status 3) and said: out of[31m memory; really; the 5 frames before can be used"},
		"after a last": {func(d *fake.Decoder) { d.Code = 1 }, 5, "the decoder ended (exit status 1) without a word; the 5 frames"},
		"in a frame":   {func(d *fake.Decoder) { d.Part = 7 }, 5, "the decoder ended without a word; the 5 frames"},
		"no frame":     {func(d *fake.Decoder) { d.Frames = 0 }, 0, "no frame came before"},
	} {
		t.Run(name, func(t *testing.T) {
			d := good
			c.with(&d)
			f, err := decoder.Open(t.Context(), file(t), d.Lookup(t), decoder.Grey)
			require.NoError(t, err)
			got, err := read(f)
			assert.Len(t, got, c.frames)
			var cut *odd.Cut
			require.ErrorAs(t, err, &cut)
			assert.Equal(t, c.frames, cut.Frames)
			assert.ErrorContains(t, err, c.want)
		})
	}
}

func TestOpenRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		with func(d *fake.Decoder)
		want string
	}{
		"no film":       {func(d *fake.Decoder) { d.Probe = "" }, "take.mov is no film that ffprobe can read: Invalid data found"},
		"no JSON":       {func(d *fake.Decoder) { d.Probe = "hello" }, "ffprobe says of"},
		"no pictures":   {func(d *fake.Decoder) { d.Probe = `{"streams":[]}` }, "take.mov has no pictures"},
		"huge":          {func(d *fake.Decoder) { d.Probe = `{"streams":[{"width":99999,"height":9}]}` }, "at most 16384 px a side"},
		"endless probe": {func(d *fake.Decoder) { d.Probe = `{"x":"` + strings.Repeat("x", 1<<16) + `"}` }, "ffprobe says of"},
		"nothing":       {func(d *fake.Decoder) { d.Head, d.Frames, d.Words, d.Code = "", 0, "no such codec", 1 }, "the decoder ended (exit status 1) and said: no such codec; no frame came before"},
		"floods":        {func(d *fake.Decoder) { d.Head, d.Frames, d.Floods = "", 0, true }, "a line has more than 4096 bytes"},
	} {
		t.Run(name, func(t *testing.T) {
			d := fake.Good(2)
			c.with(&d)
			_, err := decoder.Open(t.Context(), file(t), d.Lookup(t), decoder.Grey)
			assert.ErrorContains(t, err, c.want)
		})
	}
	_, err := decoder.Open(t.Context(), "x.mov", func(string) (string, error) { return filepath.Join(t.TempDir(), "none"), nil }, decoder.Grey)
	assert.ErrorContains(t, err, "no film that ffprobe can read")
}

// What it gives that is no frame ends it, and it does not go on behind our back.
func TestFloods(t *testing.T) {
	d := fake.Good(2)
	d.Floods = true
	f, err := decoder.Open(t.Context(), file(t), d.Lookup(t), decoder.Grey)
	require.NoError(t, err)
	got, err := read(f)
	assert.Len(t, got, 2)
	assert.ErrorContains(t, err, "a line has more than 4096 bytes")
	assert.NoError(t, f.Close())
}

// One that hangs is killed as soon as nobody waits any more, or by Close.
func TestHangs(t *testing.T) {
	d := fake.Good(1)
	d.Hangs = true
	look := d.Lookup(t)
	before := runtime.NumGoroutine()
	ctx, cancel := context.WithCancel(t.Context())
	f, err := decoder.Open(ctx, file(t), look, decoder.Grey)
	require.NoError(t, err)
	require.NoError(t, f.Read(nil))
	time.AfterFunc(10*time.Millisecond, cancel)
	assert.ErrorIs(t, f.Read(nil), context.Canceled)
	assert.NoError(t, f.Close())

	f, err = decoder.Open(t.Context(), file(t), look, decoder.Grey)
	require.NoError(t, err)
	require.NoError(t, f.Read(nil))
	begun := time.Now()
	assert.NoError(t, f.Close())
	assert.Less(t, time.Since(begun), 4*time.Second, "it is killed, not waited for until it is late")
	assert.LessOrEqual(t, runtime.NumGoroutine(), before+1, "none is left behind, but for a timer's that ends")
}

// Fewer frames than the time has that they last are told, unless sound may last longer.
func TestFramesThatWereLeftOut(t *testing.T) {
	for name, c := range map[string]struct {
		stream, format string
		told           bool
	}{
		"whole":      {"2.002000", "2.002000", false},
		"one more":   {"2.040", "", false},
		"left out":   {"2.2", "", true},
		"made up":    {"1.8", "", true},
		"sound":      {"", "2.1", false},
		"more sound": {"", "2.3", true},
		"not told":   {"", "N/A", false},
		"nonsense":   {"NaN", "-1", false},
		"for ever":   {"Inf", "1e999", false},
	} {
		t.Run(name, func(t *testing.T) {
			d := fake.Good(48)
			d.Probe = strings.Replace(d.Probe, `"nb_frames"`, `"duration":"`+c.stream+`","nb_frames"`, 1)
			d.Probe = strings.Replace(d.Probe, `"format":{}`, `"format":{"duration":"`+c.format+`"}`, 1)
			f, err := decoder.Open(t.Context(), file(t), d.Lookup(t), decoder.Grey)
			require.NoError(t, err)
			_, err = read(f)
			assert.Equal(t, io.EOF, err)
			require.Equal(t, c.told, len(f.Remarks()) == 1, "%v", f.Remarks())
			if c.told {
				assert.Contains(t, f.Remarks()[0].Text, "frames at 24000/1001 a second, and has 48")
			}
		})
	}
}

// Red, green and blue of 8 bits that were shifted up to 16 are white at 255, not at 65535.
func TestWhiteOfThreeColours(t *testing.T) {
	d := fake.Good(1)
	d.Probe = strings.Replace(d.Probe, "yuv420p", "gbrp", 1)
	d.Head = strings.Replace(d.Head, "Cmono", "Cmono16", 1)
	d.Size, d.Frames, d.Value = 2*d.Size, 2, 0x80
	f, err := decoder.Open(t.Context(), file(t), d.Lookup(t), decoder.Grey)
	require.NoError(t, err)
	got, err := read(f)
	assert.Equal(t, io.EOF, err)
	assert.InDeltaSlice(t, []float32{0x8080 / 65280., 0x8181 / 65280.}, got, 1e-6)
}

// What it complains of, though it goes on, is told.
func TestComplains(t *testing.T) {
	d := fake.Good(2)
	d.Words = "error while decoding MB 3 4"
	f, err := decoder.Open(t.Context(), file(t), d.Lookup(t), decoder.Grey)
	require.NoError(t, err)
	_, err = read(f)
	assert.Equal(t, io.EOF, err)
	require.Len(t, f.Remarks(), 1)
	assert.Contains(t, f.Remarks()[0].Text, "damaged: error while decoding MB 3 4")
}

func TestMissing(t *testing.T) {
	only := func(has string) decoder.Lookup {
		return func(name string) (string, error) {
			if name == has {
				return "/bin/" + name, nil
			}
			return "", errors.New("not there")
		}
	}
	for has, want := range map[string]string{"": "ffmpeg is not on the PATH", "ffmpeg": "ffprobe is not on the PATH", "ffprobe": "ffmpeg is not on the PATH"} {
		_, err := decoder.Open(t.Context(), "my take's.mov", only(has), decoder.Grey)
		var missing *decoder.Missing
		require.ErrorAs(t, err, &missing)
		assert.ErrorContains(t, err, want)
		assert.ErrorContains(t, err, `"ffmpeg -i 'my take'\''s.mov' -map 0:v:0 -fps_mode passthrough -strict -1 'my take'\''s.y4m'" makes a file that needs none`)
	}
	assert.Equal(t, "./-a.mov", decoder.Convert("-a.mov")[2])
	assert.Equal(t, "a.y4m", decoder.Convert("b/a.mov")[9])
}

package film_test

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/film"
)

// shown are the first pictures of a recording.
func shown(t *testing.T, path string, n int, o film.Options) (out []*image.RGBA) {
	t.Helper()
	p, err := film.OpenPictures(t.Context(), path, o)
	require.NoError(t, err)
	for range n {
		img, err := p.Next()
		require.NoError(t, err)
		out = append(out, img)
	}
	require.NoError(t, p.Close())
	return out
}

// What the program draws is read back in its colours, to the bit.
func TestTheLoopIsReadBackInItsColours(t *testing.T) {
	f := demo(t)
	views, err := f.Views(9)
	require.NoError(t, err)
	var b bytes.Buffer
	_, err = f.WriteLoop(&b, 9)
	require.NoError(t, err)
	path := saved(t, "loop.png", b.Bytes())
	for n, p := range shown(t, path, len(views), film.Options{}) {
		require.Equal(t, f.Frame(views[n].Captured).Pix, p.Pix)
	}
	third := shown(t, path, 1, film.Options{Frames: film.Range{First: 3}})[0]
	assert.Equal(t, f.Frame(views[3].Captured).Pix, third.Pix, "with frames before that are passed over")
}

// bars are patches of 2 x 2 px of a still.
func bars() []color.RGBA {
	return []color.RGBA{{191, 191, 191, 255}, {191, 191, 0, 255}, {0, 191, 191, 255}, {0, 191, 0, 255},
		{191, 0, 191, 255}, {191, 0, 0, 255}, {0, 0, 191, 255}, {0, 0, 0, 255}}
}

func barPicture(side int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, side*len(bars()), side))
	for x := range img.Rect.Dx() {
		for y := range side {
			img.SetRGBA(x, y, bars()[x/side])
		}
	}
	return img
}

func TestStillsInTheirColours(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, barPicture(2)))
	got := shown(t, saved(t, "bars.png", b.Bytes()), 1, film.Options{})[0]
	assert.Equal(t, barPicture(2).Pix, got.Pix)
	half := shown(t, saved(t, "bars.png", b.Bytes()), 1, film.Options{Scale: 0.5})[0]
	assert.Equal(t, barPicture(1).Pix, half.Pix)
}

// Colour bars of 75 % as Y, Cb and Cr of 8 bits: the codes of Rec. ITU-R BT.801-1 for BT.601, from
// memory: they are what its equations give, rounded.
func TestFilmInItsColours(t *testing.T) {
	codes := [][3]byte{{180, 128, 128}, {162, 44, 142}, {131, 156, 44}, {112, 72, 58}, {84, 184, 198}, {65, 100, 212}, {35, 212, 114}, {16, 128, 128}}
	for name, c := range map[string]struct{ across, down, deep int }{
		"420jpeg": {2, 2, 0}, "422": {2, 1, 0}, "444": {1, 1, 0}, "420p10": {2, 2, 2}, "444p12": {1, 1, 4}, "444alpha": {1, 1, 0},
	} {
		t.Run(name, func(t *testing.T) {
			var b bytes.Buffer
			fmt.Fprintf(&b, "YUV4MPEG2 W16 H2 F24:1 Ip C%s XCOLORRANGE=LIMITED\n", name)
			for range 2 {
				b.WriteString("FRAME\n")
				for plane := range 3 {
					across, down := c.across, c.down
					if plane == 0 {
						across, down = 1, 1
					}
					for range 2 / down {
						for x := range 16 / across {
							b.Write(coded(codes[x*across/2][plane], c.deep))
						}
					}
				}
				if name == "444alpha" {
					b.Write(make([]byte, 32))
				}
			}
			path := saved(t, "bars.y4m", b.Bytes())
			for _, got := range shown(t, path, 2, film.Options{}) {
				assert.Less(t, worst(barPicture(2), got), 2)
			}
		})
	}
}

func coded(v byte, deep int) []byte {
	if deep == 0 {
		return []byte{v}
	}
	code := int(v) << deep
	return []byte{byte(code), byte(code >> 8)}
}

// worst is by how much two pictures differ at the most, of 255.
func worst(a, b *image.RGBA) (most int) {
	for n := range a.Pix {
		most = max(most, int(a.Pix[n])-int(b.Pix[n]), int(b.Pix[n])-int(a.Pix[n]))
	}
	return most
}

// Full range in grey, and in colour as the standard library's image/color has it (JFIF).
func TestFullRange(t *testing.T) {
	head := "YUV4MPEG2 W1 H1 F24:1 Ip C%s XCOLORRANGE=FULL\nFRAME\n"
	grey := shown(t, saved(t, "a.y4m", append(fmt.Appendf(nil, head, "mono"), 100)), 1, film.Options{})[0]
	assert.Equal(t, color.RGBA{100, 100, 100, 255}, grey.RGBAAt(0, 0))
	for _, c := range []color.YCbCr{{120, 128, 128}, {90, 100, 180}, {200, 140, 110}, {60, 190, 90}} {
		got := shown(t, saved(t, "b.y4m", append(fmt.Appendf(nil, head, "444"), c.Y, c.Cb, c.Cr)), 1, film.Options{})[0].RGBAAt(0, 0)
		r, g, b := color.YCbCrToRGB(c.Y, c.Cb, c.Cr)
		assert.InDelta(t, r, got.R, 1)
		assert.InDelta(t, g, got.G, 1)
		assert.InDelta(t, b, got.B, 1)
	}
}

// A film that ends within its colours has the frames before.
func TestACutWithinColours(t *testing.T) {
	data := video(3)
	p, err := film.OpenPictures(t.Context(), saved(t, "cut.y4m", data[:len(data)-2]), film.Options{})
	require.NoError(t, err)
	for range 2 {
		_, err = p.Next()
		require.NoError(t, err)
	}
	_, err = p.Next()
	var cut *film.Cut
	require.ErrorAs(t, err, &cut)
	assert.Equal(t, 2, cut.Frames)
	_, err = p.Next()
	assert.ErrorAs(t, err, &cut, "it stays")
}

// What a real encoder makes of the bars comes back in their colours, whatever matrix it wrote.
func TestRealFilmInItsColours(t *testing.T) {
	wantsDecoder(t)
	const side = 32
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, barPicture(side)))
	for name, args := range map[string][]string{
		"h264.mp4":   {"-vf", "scale=out_color_matrix=bt709,format=yuv420p", "-colorspace", "bt709", "-c:v", "libx264", "-crf", "10"},
		"old.avi":    {"-vf", "scale=out_color_matrix=bt601,format=yuv420p", "-c:v", "mpeg4", "-q:v", "2"},
		"prores.mov": {"-vf", "scale=out_color_matrix=bt709,format=yuv422p10,setparams=colorspace=bt709", "-c:v", "prores_ks"},
		"unsaid.mov": {"-vf", "scale=1280:720:flags=neighbor:out_color_matrix=bt709,format=yuv422p10,setparams=colorspace=unknown", "-c:v", "prores_ks"},
		"rgb.mkv":    {"-c:v", "ffv1", "-pix_fmt", "bgr0"},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			ffmpeg(t, dir, b.Bytes(), append(append([]string{"-loop", "1", "-framerate", "24", "-f", "png_pipe", "-i", "-", "-frames:v", "3"}, args...), name)...)
			got := shown(t, filepath.Join(dir, name), 1, film.Options{Decoder: exec.LookPath, Widest: side * len(bars())})[0]
			for n, want := range bars() { // the middle of each: at their edges colour is shared
				at := got.RGBAAt(n*side+side/2, got.Rect.Dy()/2)
				const near = 8 // of 255, by what a coarse quantiser leaves of a flat patch
				assert.InDelta(t, want.R, at.R, near, "%v %v", want, at)
				assert.InDelta(t, want.G, at.G, near, "%v %v", want, at)
				assert.InDelta(t, want.B, at.B, near, "%v %v", want, at)
			}
		})
	}
}

func TestPicturesEnd(t *testing.T) {
	p, err := film.OpenPictures(t.Context(), saved(t, "v.y4m", video(1)), film.Options{})
	require.NoError(t, err)
	_, err = p.Next()
	require.NoError(t, err)
	_, err = p.Next()
	assert.Equal(t, io.EOF, err)
	assert.Equal(t, "24000/1001", p.About().Rate.String())
}

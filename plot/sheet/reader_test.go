package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// popplerVariable, set to anything, has the PDF read back and rendered by
// another program (Debian package poppler-utils), which must then be there.
const popplerVariable = "SEAMRAIL_POPPLER"

// rendering is the resolution to render at, in pixels an inch: a mm is four
// pixels.
const rendering = 101.6

func TestReaderPoppler(t *testing.T) {
	if os.Getenv(popplerVariable) == "" {
		t.Skip("set " + popplerVariable + " to read the sheet back with poppler")
	}
	p := lantern(t)
	folder := t.TempDir()
	name := filepath.Join(folder, "sheet.pdf")
	require.NoError(t, os.WriteFile(name, []byte(written(t, p)), 0o600))
	run := func(program string, args ...string) string {
		out, err := exec.Command(program, args...).CombinedOutput()
		require.NoError(t, err, string(out))
		return string(out)
	}
	said := run("pdftotext", "-raw", name, "-")
	for _, text := range p.texts() {
		for _, word := range strings.Fields(text) {
			if text != p.NotAbove {
				assert.Contains(t, said, word)
			}
		}
	}
	assert.Contains(t, said, "Scale 1:10")
	assert.NotContains(t, run("pdffonts", name), "Type 3")
	run("pdftoppm", "-r", "101.6", "-png", "-singlefile", name, filepath.Join(folder, "sheet"))
	bar(t, filepath.Join(folder, "sheet.png"))
}

// Every word of every page shows, as another program paints it: in the box in which
// it finds the word, something stands out from its ground. Text on white in white
// reads back as well as any.
func TestReaderSeesEveryWord(t *testing.T) {
	if os.Getenv(popplerVariable) == "" {
		t.Skip("set " + popplerVariable + " to look at the sheets with poppler")
	}
	folder := t.TempDir()
	name := filepath.Join(folder, "sheets.pdf")
	var b bytes.Buffer
	require.NoError(t, Write(&b, []Page{lantern(t), lantern(t), pageOf(t, lanternMoves), lantern(t)}))
	require.NoError(t, os.WriteFile(name, b.Bytes(), 0o600))
	run := func(program string, args ...string) string {
		out, err := exec.Command(program, args...).CombinedOutput()
		require.NoError(t, err, string(out))
		return string(out)
	}
	run("pdftoppm", "-r", "101.6", "-png", name, filepath.Join(folder, "page"))
	pages := strings.Split(run("pdftotext", "-bbox", name, "-"), "<page ")[1:]
	require.GreaterOrEqual(t, len(pages), 4)
	words := regexp.MustCompile(`<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">(.*?)</word>`)
	for k, text := range pages {
		f, err := os.Open(filepath.Join(folder, fmt.Sprintf("page-%d.png", k+1)))
		require.NoError(t, err)
		img, err := png.Decode(f)
		require.NoError(t, errors.Join(err, f.Close()))
		found := words.FindAllStringSubmatch(text, -1)
		require.Greater(t, len(found), 100)
		for _, w := range found {
			var box [4]int
			for i := range box {
				v, err := strconv.ParseFloat(w[i+1], 64)
				require.NoError(t, err)
				box[i] = int(v * rendering / 72)
			}
			assert.Greater(t, spread(img, image.Rect(box[0], box[1], box[2]+1, box[3]+1)), minSpread, "page %d: %s cannot be seen", k+1, w[5])
		}
	}
}

// As another program paints it, every page of a long sheet but the last has ink in its
// lower half.
func TestReaderSeesFullPages(t *testing.T) {
	if os.Getenv(popplerVariable) == "" {
		t.Skip("set " + popplerVariable + " to look at the sheets with poppler")
	}
	folder := t.TempDir()
	name := filepath.Join(folder, "long.pdf")
	require.NoError(t, os.WriteFile(name, []byte(written(t, crowded(t, 6, 20))), 0o600))
	out, err := exec.Command("pdftoppm", "-r", "50.8", "-gray", "-png", name, filepath.Join(folder, "page")).CombinedOutput()
	require.NoError(t, err, string(out))
	pages, err := filepath.Glob(filepath.Join(folder, "page-*.png"))
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(pages), 2)
	for k, page := range pages[:len(pages)-1] {
		f, err := os.Open(page)
		require.NoError(t, err)
		img, err := png.Decode(f)
		require.NoError(t, errors.Join(err, f.Close()))
		wide, high := img.Bounds().Dx(), img.Bounds().Dy()
		body := image.Rect(0, 0, wide, high*93/100) // above the foot
		last := body.Max.Y - 1
		for last > 0 && spread(img, image.Rect(0, last, wide, last+1)) < minSpread {
			last--
		}
		assert.Greater(t, last, high*58/100, "page %d ends at %d of %d", k+1, last, high)
	}
}

// minSpread is how much lighter the ground of a word is than its ink at least, of
// 65535: a quarter. A comma is small at this resolution, and grey.
const minSpread = 0x4000

// spread is how far the lightest and the darkest point in a box are apart.
func spread(img image.Image, box image.Rectangle) int {
	least, most := 0xffff, 0
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			g := int(color.Gray16Model.Convert(img.At(x, y)).(color.Gray16).Y)
			least, most = min(least, g), max(most, g)
		}
	}
	return most - least
}

// bar finds the scale bar, by rows in which two or three runs of black are longer
// than any letter is wide: each is a fifth of the bar, 10 mm on paper.
func bar(t *testing.T, name string) {
	t.Helper()
	f, err := os.Open(name)
	require.NoError(t, err)
	defer func() { _ = f.Close() }()
	img, err := png.Decode(f)
	require.NoError(t, err)
	black := func(x, y int) bool {
		r, g, b, _ := img.At(x, y).RGBA()
		return r>>8 < 64 && g>>8 < 64 && b>>8 < 64
	}
	const fifth = 10 * rendering / 25.4
	found := 0
	for y := range img.Bounds().Dy() {
		var runs []int
		length := 0
		for x := range img.Bounds().Dx() {
			if black(x, y) {
				length++
				continue
			}
			if length > fifth/2 {
				runs = append(runs, length)
			}
			length = 0
		}
		if len(runs) >= 2 && len(runs) <= 3 {
			for _, r := range runs {
				assert.InDelta(t, fifth, r, 3, "row %d", y) // a pixel of outline at either end, and rounding
			}
			found++
		}
	}
	assert.Positive(t, found, "no scale bar")
}

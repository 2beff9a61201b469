package sheet

import (
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
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

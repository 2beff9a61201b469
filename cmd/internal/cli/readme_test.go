package cli_test

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/guide"
)

// byTheToolchain are the README's commands that the Go toolchain runs itself;
// the first is what CI calls.
var byTheToolchain = []string{"go test ./...", "go install ./cmd/seamrail"}

// readmeCommands returns the indented lines of the README.
func readmeCommands(t *testing.T) []string {
	var out []string
	for line := range strings.Lines(readme(t)) {
		if rest, ok := strings.CutPrefix(line, "    "); ok {
			out = append(out, strings.TrimSpace(rest))
		}
	}
	return out
}

// pictureShare is the share of pixels in which a picture may differ from the
// one in the README: processors that round the last bit of a product otherwise
// may move the edge of a line, not the line.
const pictureShare = 0.001

// sameDrawing compares two pictures pixel by pixel.
func sameDrawing(t *testing.T, want, got image.Image) {
	require.Equal(t, want.Bounds(), got.Bounds(), "the README's picture is of another size")
	other := 0
	for y := range want.Bounds().Dy() {
		for x := range want.Bounds().Dx() {
			r, g, b, a := want.At(x, y).RGBA()
			s, h, c, d := got.At(x, y).RGBA()
			if r != s || g != h || b != c || a != d {
				other++
			}
		}
	}
	size := want.Bounds().Dx() * want.Bounds().Dy()
	assert.LessOrEqual(t, float64(other), pictureShare*float64(size), "the README's picture is not what make draws")
}

func TestTheReadmesPictureIsTheDemos(t *testing.T) {
	file, err := os.Open(filepath.Join("..", "..", "..", "testdata", "golden", "lantern.png"))
	require.NoError(t, err)
	defer func() { _ = file.Close() }()
	want, err := png.Decode(file)
	require.NoError(t, err)
	dir := t.TempDir()
	typed(t, dir, "seamrail plot -o lantern.png")
	drawn, err := os.ReadFile(filepath.Join(dir, "lantern.png"))
	require.NoError(t, err)
	got, err := png.Decode(bytes.NewReader(drawn))
	require.NoError(t, err)
	sameDrawing(t, want, got)
}

func TestEveryCommandOfTheReadmeRuns(t *testing.T) {
	t.Parallel()
	dir, ran := t.TempDir(), 0
	for _, c := range readmeCommands(t) {
		if slices.Contains(byTheToolchain, c) {
			continue
		}
		typed(t, dir, strings.TrimPrefix(c, "go run ./cmd/"))
		ran++
	}
	assert.Equal(t, 12, ran, "the demo, and a day in eleven commands")
	for _, name := range []string{"loop/report.txt", "loop/loop.ngc", "loop/loop.png", "my-loop/steps.csv", "preview.png", "above.pdf", "cues.wav", "selects.csv", "clip/timeline.otio"} {
		assert.FileExists(t, filepath.Join(dir, name))
	}
}

// Every other command of the README wants the program where it is installed to.
func TestTheProgramIsInstalled(t *testing.T) {
	t.Parallel()
	assert.Contains(t, readmeCommands(t), "go install ./cmd/seamrail")
	to := t.TempDir()
	install := exec.Command("go", "install", "./cmd/seamrail")
	install.Dir = filepath.Join("..", "..", "..")
	install.Env = append(os.Environ(), "GOBIN="+to)
	out, err := install.CombinedOutput()
	require.NoError(t, err, string(out))
	files, err := os.ReadDir(to)
	require.NoError(t, err)
	require.Len(t, files, 1)
	assert.Equal(t, "seamrail", strings.TrimSuffix(files[0].Name(), ".exe"))
}

// The README is short, and lists the chapters that there are.
func TestTheReadmeIsShort(t *testing.T) {
	text := readme(t)
	assert.Less(t, len(text), 13000)
	assert.Equal(t, len(guide.Chapters()), strings.Count(text, "\n| [`"))
	for _, c := range guide.Chapters() {
		assert.Contains(t, text, "| [`"+c.Name+"`](cmd/internal/guide/chapters/"+c.Name+".md) | "+c.Short+" |\n")
	}
}

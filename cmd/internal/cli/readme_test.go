package cli

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/guide"
)

// byTheToolchain are the README's commands that the Go toolchain runs itself;
// the first is what CI calls.
var byTheToolchain = []string{"go test ./...", "go install ./cmd/seamrail"}

// readmeCommands returns the indented lines of the README.
func readmeCommands(t *testing.T) []string {
	text, err := os.ReadFile(filepath.Join("..", "..", "..", "README.md"))
	require.NoError(t, err)
	var out []string
	for line := range strings.Lines(string(text)) {
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
	t.Chdir(t.TempDir())
	var out, errs bytes.Buffer
	require.Zero(t, Run(command.Streams{In: strings.NewReader(""), Out: &out, Err: &errs}, []string{"plot", "-o", "lantern.png"}), errs.String())
	drawn, err := os.ReadFile("lantern.png")
	require.NoError(t, err)
	got, err := png.Decode(bytes.NewReader(drawn))
	require.NoError(t, err)
	sameDrawing(t, want, got)
}

// shellWords splits a command as a shell would, double quotes and all.
func shellWords(command string) []string {
	var out []string
	for i, part := range strings.Split(command, `"`) {
		if i%2 == 1 {
			out = append(out, part)
			continue
		}
		out = append(out, strings.Fields(part)...)
	}
	return out
}

// madeReal makes what a rig of software has run a take of one of metal: nothing else
// takes a mark.
func madeReal(t *testing.T, log string) {
	text, err := os.ReadFile(log)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(log, bytes.ReplaceAll(text, []byte(`,"virtual":true`), nil), 0o600))
}

func TestEveryCommandOfTheReadmeRuns(t *testing.T) {
	commands := readmeCommands(t)
	t.Chdir(t.TempDir())
	ran := 0
	for _, c := range commands {
		args, ours := strings.CutPrefix(strings.TrimPrefix(c, "go run ./cmd/"), "seamrail ")
		if !ours {
			assert.Contains(t, byTheToolchain, c, "the README has a command that no test runs")
			continue
		}
		if strings.HasPrefix(args, "takes ") {
			madeReal(t, filepath.Join("my-shot", "lantern.takes.jsonl"))
		}
		var out, errs bytes.Buffer
		code := Run(command.Streams{In: strings.NewReader(""), Out: &out, Err: &errs}, shellWords(args))
		assert.Zero(t, code, "%s: %s", c, errs.String())
		ran++
	}
	assert.Equal(t, 11, ran, "the demo, and a day in ten commands")
	for _, name := range []string{"loop/report.txt", "loop/loop.ngc", "loop/loop.png", "my-loop/steps.csv", "preview.png", "above.pdf", "cues.wav", "selects.csv"} {
		assert.FileExists(t, name)
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
	text, err := os.ReadFile(filepath.Join("..", "..", "..", "README.md"))
	require.NoError(t, err)
	assert.Less(t, len(text), 13000)
	assert.Equal(t, len(guide.Chapters()), strings.Count(string(text), "\n| [`"))
	for _, c := range guide.Chapters() {
		assert.Contains(t, string(text), "| [`"+c.Name+"`](cmd/internal/guide/chapters/"+c.Name+".md) | "+c.Short+" |\n")
	}
}

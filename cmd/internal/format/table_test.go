package format

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/job"
)

// demo is the built-in shot, changed by what is given.
func demo(t *testing.T, over ...job.Value) *job.Job {
	t.Helper()
	j, err := job.Source{Over: over}.Job(nil)
	require.NoError(t, err)
	return j
}

// bare is a move of the rail alone: no camera, no scene, no cue.
func bare(t *testing.T) *job.Job {
	t.Helper()
	return demo(t, job.Value{Key: "from", Of: job.Rail, Text: "20 mm"}, job.Value{Key: "to", Of: job.Rail, Text: "90 mm"})
}

// fading has the second lamp of the demo fade, as its file does not.
var fading = []job.Value{{Key: "scene.lamps[2].fade.from", Text: "0 %"}, {Key: "scene.lamps[2].fade.to", Text: "85 %"}}

// singly is a shot that is taken frame by frame, which the demo is not.
func singly(t *testing.T) *job.Job {
	t.Helper()
	name := filepath.Join(t.TempDir(), "stills.toml")
	require.NoError(t, os.WriteFile(name, []byte(`
[clock]
playback = "24"
loop = "24 frames"
[frame-by-frame]
exposure = "1 s"
hand = "taken"
[rig.axis.rail]
letter = "X"
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
steps = "80 per mm"
[axis.rail]
from = "40 mm"
to = "100 mm"
`), 0o600))
	j, err := job.Source{Shot: name}.Job(nil)
	require.NoError(t, err)
	return j
}

// ofRunning are the formats of a shot that the camera runs through, and says everything.
func ofRunning(t *testing.T, all *Of) []Format {
	return slices.DeleteFunc(All(), func(f Format) bool {
		if f.File != "schedule.csv" {
			return false
		}
		assert.ErrorContains(t, f.Missing(all), "the shot is not taken frame by frame")
		return true
	})
}

// What a take frame by frame has, and has not.
func TestFormatsFrameByFrame(t *testing.T) {
	of := New(singly(t), Usual())
	for _, name := range []string{"steps.csv", "ticks.csv"} {
		f := must(t, name, InFile)
		assert.ErrorContains(t, f.Missing(of), "the shot is taken frame by frame, and rests in each")
	}
	_, err := of.Walk()
	assert.ErrorContains(t, err, "there is no run to walk through; go to single frames instead")
	f := must(t, "schedule.csv", InFile)
	require.NoError(t, f.Missing(of))
	var b bytes.Buffer
	require.NoError(t, f.Write(of, &b))
	assert.Equal(t, 24, strings.Count(b.String(), "\n")-strings.Count(b.String(), "\n#")-2, "a row a frame under the titles")
	assert.Contains(t, b.String(), "\n0,0,0,00:00:00:00,0,1,0.000000,0.000000,1.500000,40.000000,3200\n")
	b.Reset()
	require.NoError(t, must(t, "loop.ngc", InFile).Write(of, &b))
	assert.Equal(t, 25, strings.Count(b.String(), "\nM0\n"), "one for the start and one a frame")
	b.Reset()
	require.NoError(t, must(t, "report.txt", InFile).Write(of, &b))
	assert.Contains(t, b.String(), "FRAME BY FRAME")
}

// Each row answers all that is asked of a format, and no two answer to one name.
func TestEveryRowAnswers(t *testing.T) {
	files, names := map[string]bool{}, map[string]bool{}
	for _, f := range All() {
		assert.Regexp(t, `^[a-z]+\.[a-z]+$`, f.File)
		assert.NotEmpty(t, f.Purpose, f.File)
		assert.NotNil(t, f.Write, f.File)
		assert.False(t, files[f.File], "two are called %s", f.File)
		files[f.File] = true
		if x := f.Export; x.Name == "" {
			assert.Equal(t, Export{}, x, "%s has no name", f.File)
			continue
		}
		assert.Regexp(t, `^[a-z]+$`, f.Export.Name)
		assert.NotEmpty(t, f.Export.Help, f.File)
		assert.False(t, names[f.Export.Name], "two are called %s", f.Export.Name)
		names[f.Export.Name] = true
		assert.Equal(t, f.Export.Name, must(t, f.Export.Name, Named).Export.Name)
	}
	for i, f := range Exports() {
		assert.Equal(t, i+1, f.Export.Place, f.Export.Name)
	}
	for _, file := range []string{indexName, pageName} {
		assert.False(t, files[file], "%s lists the others", file)
	}
}

func must(t *testing.T, name string, find func(string) (Format, error)) Format {
	t.Helper()
	f, err := find(name)
	require.NoError(t, err)
	return f
}

// What is not in the table is an error, whatever it looks like.
func TestWhatIsUnknownIsNotWritten(t *testing.T) {
	for _, name := range []string{"", "nothing", "Frames", "frames.csv", "frames ", "index.txt", "../x"} {
		_, err := Named(name)
		assert.ErrorContains(t, err, "nothing to export that is called", name)
		assert.ErrorContains(t, err, strings.Join(Names(), ", "))
	}
	for _, name := range []string{"", "frames", "index.txt", "index.html", "../frames.csv"} {
		_, err := InFile(name)
		assert.Error(t, err, name)
	}
}

// All that can be written of a shot that says everything comes out, each as something
// else, and what a bare move lacks is told for each format that it lacks it for.
func TestEveryFormatIsWritten(t *testing.T) {
	of := New(demo(t, fading...), Usual())
	written := map[string]string{}
	for _, f := range ofRunning(t, of) {
		require.NoError(t, f.Missing(of), f.File)
		var b bytes.Buffer
		require.NoError(t, f.Write(of, &b), f.File)
		assert.NotEmpty(t, b.Bytes(), f.File)
		other, same := written[b.String()]
		assert.False(t, same, "%s and %s hold the same", f.File, other)
		written[b.String()] = f.File
	}
	none := New(bare(t), Usual())
	var left, quiet []string
	for _, f := range All() {
		if err := f.Missing(none); err != nil && f.Quiet {
			quiet = append(quiet, f.File)
			assert.Contains(t, err.Error(), "the shot ", "it says what of the shot is missing")
			continue
		} else if err != nil {
			left = append(left, f.File)
			assert.Contains(t, err.Error(), "the shot ", "it says what of the shot is missing")
			continue
		}
		assert.NoError(t, f.Write(none, io.Discard), f.File)
	}
	assert.Equal(t, []string{"picture.csv", "picture.png", "picture.svg", "picture.pdf", "above.pdf", "above.png", "above.svg",
		"cues.txt", "cues.wav", "cues.vtt", "motion.glb"}, left)
	var said strings.Builder
	require.NoError(t, none.Contents().List(&said))
	for _, name := range left {
		assert.Contains(t, said.String(), name)
	}
	assert.Equal(t, []string{"schedule.csv", "light.csv"}, quiet)
	assert.NotContains(t, said.String(), "light.csv", "few shots have it")
	assert.Equal(t, 2, strings.Count(said.String(), "Left out: "), "what is left out for one reason is told once")
}

// A plan that breaks a limit is refused in every format.
func TestWhatCannotBeDoneIsRefused(t *testing.T) {
	j := demo(t, job.Value{Key: "to", Of: job.Rail, Text: "390 mm"})
	for _, f := range All() {
		assert.Equal(t, exit.Limits, exit.Code(f.Refused(j, false)), f.File)
		assert.NoError(t, f.Refused(j, true), f.File)
	}
}

// The index of the folder is the table, in its order and with its words.
func TestTheIndexIsTheTable(t *testing.T) {
	of := New(demo(t, fading...), Usual())
	all, rows := of.Contents(), ofRunning(t, of)
	files := all.Files()
	require.Len(t, files, len(rows)+2)
	for i, f := range rows {
		assert.Equal(t, f.File, files[i].Name)
	}
	var index, page bytes.Buffer
	require.NoError(t, all.index(&index))
	require.NoError(t, all.page(&page))
	at := 0
	for _, f := range all.grouped() {
		line := "  " + f.File + strings.Repeat(" ", max(12-len(f.File), 0)) + " " + f.Purpose + "\n"
		next := strings.Index(index.String()[at:], line)
		require.GreaterOrEqual(t, next, 0, line)
		at += next
		assert.Contains(t, page.String(), f.File)
	}
}

// The README's table of the folder names every file of it, and no other.
func TestTheReadmeNamesEveryFile(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "..", "..", "README.md"))
	require.NoError(t, err)
	_, section, found := strings.Cut(string(text), "| file | for |\n")
	require.True(t, found)
	section, _, _ = strings.Cut(section, "\n\n")
	var named []string
	for row := range strings.Lines(section) {
		first, _, _ := strings.Cut(strings.TrimPrefix(row, "|"), "|")
		stem := ""
		for _, m := range regexp.MustCompile("`([^`]*)(\\.[a-z]+)`").FindAllStringSubmatch(first, -1) {
			if m[1] != "" {
				stem = m[1] // and an ending alone is another of it
			}
			named = append(named, stem+m[2])
		}
	}
	var want []string
	for _, f := range All() {
		want = append(want, f.File)
	}
	slices.Sort(want)
	slices.Sort(named)
	assert.Equal(t, want, named)
}

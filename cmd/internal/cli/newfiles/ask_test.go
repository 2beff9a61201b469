package newfiles

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/starter/kinds"
)

// asked runs the command at a terminal at which somebody answers, in a new folder.
func asked(t *testing.T, answers string, args ...string) (dir, printed string, err error) {
	t.Helper()
	dir = t.TempDir()
	t.Chdir(dir)
	var out bytes.Buffer
	c := NewCmdNew(command.Streams{In: strings.NewReader(answers), Out: &out, Asks: true}, nil)
	c.SilenceErrors, c.SilenceUsage = true, true
	c.SetArgs(args)
	err = c.Execute()
	return dir, out.String(), err
}

func read1(t *testing.T, dir, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(dir, name))
	require.NoError(t, err)
	return string(text)
}

// nothingIn is that nothing was written.
func nothingIn(t *testing.T, dir string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, entries)
}

// Enter keeps what stands in brackets, and a number alone has the unit of the question.
func TestAskingFiveNumbers(t *testing.T) {
	dir, printed, err := asked(t, "\n120 frames\n 70 \n\n320 mm\n", "pass", "d")
	require.NoError(t, err)
	text := read1(t, dir, "d/pass.toml")
	for _, want := range []string{`capture  = "119.88"`, `loop     = "120 frames"`, `from = "70 mm"`, `to   = "340 mm"`, `distance = "320 mm"`} {
		assert.Contains(t, text, want)
	}
	for _, want := range []string{
		"pass: past the product once; the rig comes back unseen.\nEnter keeps what stands in brackets.\n",
		"frames a second that the camera takes; more than 23.976 are seen slower than life\n  capture (23.976 to 240) [119.88] ",
		"where the carriage begins\n  from (0 mm to 400 mm) [60 mm] ",
		"Next: seamrail plan d/pass.toml\n",
	} {
		assert.Contains(t, printed, want)
	}
}

// What would not do is told with what would, and asked again, until it does.
func TestAskingAgain(t *testing.T) {
	dir, printed, err := asked(t, "fast\n500\n100\n\n\n60 mm\n100\n\n", "there-and-back")
	require.NoError(t, err)
	text := read1(t, dir, "there-and-back.toml")
	assert.Contains(t, text, `capture  = "100"`)
	assert.Contains(t, text, `from      = "40 mm"`)
	assert.Contains(t, text, `to        = "60 mm"`)
	assert.Contains(t, printed, "would do, from 23.976 to 240\n  capture (23.976 to 240) [119.88] ")
	assert.Contains(t, printed, "\"500\" must be from 23.976 to 240\n  capture (23.976 to 240) [119.88] ")
	assert.Contains(t, printed, "\"100 mm\" must be from 250 mm to 900 mm\n  distance (250 mm to 900 mm) [410 mm] ")
}

// Two ends that meet are found where the second is asked.
func TestAskingForTwoEnds(t *testing.T) {
	_, printed, err := asked(t, "\n\n100 mm\n\n120 mm\n\n", "there-and-back")
	require.NoError(t, err)
	assert.Contains(t, printed, "\"100 mm\" must be at least 1 mm from the other end, 100 mm\n  to (0 mm to 400 mm) [100 mm] ")
}

// The end of the answers, wherever it comes, writes nothing.
func TestTheAnswersEnd(t *testing.T) {
	for answers := range map[string]bool{"": true, "119.88\n6 s\n": true, "119.88": true, "2\n": true} {
		var args []string
		if !strings.HasPrefix(answers, "2") {
			args = []string{"hand"}
		}
		dir, _, err := asked(t, answers, args...)
		assert.EqualError(t, err, "the answers ended; nothing was written")
		assert.Equal(t, exit.Usage, exit.Code(err))
		nothingIn(t, dir)
	}
}

// With nothing on the command line a terminal is offered the kinds, by number or name;
// Enter takes the built-in shot.
func TestTheKindsAreOffered(t *testing.T) {
	dir, printed, err := asked(t, "12\nspiral\n4\n\n\n\n\n1:2\n")
	require.NoError(t, err)
	assert.Contains(t, read1(t, dir, "label.toml"), `magnification   = "1:2"`)
	assert.Contains(t, printed, "\"12\" is none of them; a number from 1 to 10 would do, or a name.\n> ")
	assert.Contains(t, printed, "\"spiral\" is none of them")
	for _, k := range kinds.All() {
		assert.Contains(t, printed, k.Name)
		assert.LessOrEqual(t, len(k.Line), 62, "it is a line of the list")
	}
	for line := range strings.Lines(printed) {
		assert.LessOrEqual(t, len([]rune(line)), 110, line)
	}
	dir, _, err = asked(t, "time-lapse\n\n\n\n\n\n")
	require.NoError(t, err)
	assert.FileExists(t, filepath.Join(dir, "time-lapse.toml"))
	dir, _, err = asked(t, "\n")
	require.NoError(t, err)
	assert.FileExists(t, filepath.Join(dir, "lantern.toml"))
}

// Nobody is asked who has said a number, or named a folder.
func TestWhoIsNotAsked(t *testing.T) {
	for _, args := range [][]string{{"pass", "d", "--loop", "6 s"}, {"d"}, {"--sequence"}, {"--controller", "lockstep"}} {
		_, printed, err := asked(t, "", args...)
		require.NoError(t, err, args)
		assert.NotContains(t, printed, "Enter", args)
	}
	// The rig alone is no number: the five are asked.
	_, printed, err := asked(t, "\n\n\n\n\n", "pass", "--no-table")
	require.NoError(t, err)
	assert.Contains(t, printed, "Enter keeps")
}

// Whatever a kind asks there is a flag for, and no flag is for nothing.
func TestEveryQuestionHasAFlag(t *testing.T) {
	c := NewCmdNew(command.Streams{}, nil)
	used := map[string]bool{}
	for _, k := range kinds.All() {
		for _, q := range k.Questions(kinds.Bench{}, nil) {
			used[q.Name] = true
			assert.NotNil(t, c.Flags().Lookup(q.Name), q.Name)
		}
	}
	for _, w := range numberWords {
		assert.True(t, used[w.name], w.name)
	}
}

// What is there already is told before anything is asked, with what would do instead: a
// rig that was measured is no file to write over. With it a second shot goes beside the
// first, and the schemas that are there serve both.
func TestASecondShotInAFolder(t *testing.T) {
	dir, _, err := asked(t, strings.Repeat("\n", 5), "hand")
	require.NoError(t, err)
	again := func(args ...string) (string, error) {
		var out bytes.Buffer
		c := NewCmdNew(command.Streams{In: strings.NewReader(strings.Repeat("\n", 5)), Out: &out, Asks: true}, nil)
		c.SilenceErrors, c.SilenceUsage = true, true
		c.SetArgs(args)
		err := c.Execute()
		return out.String(), err
	}
	printed, err := again("pass")
	require.EqualError(t, err, "bench-rail.toml is already there and nothing was written; --rig bench-rail.toml makes the shot for the rig that it describes, and --force writes over it")
	assert.Empty(t, printed)
	printed, err = again("pass", "--rig", "bench-rail.toml")
	require.NoError(t, err)
	assert.NotContains(t, printed, "schema", "nothing of it was written")
	assert.Contains(t, read1(t, dir, "pass.toml"), `file = "bench-rail.toml"`)
	require.NoError(t, os.WriteFile("rig.schema.json", []byte("{}"), 0o600))
	_, err = again("label", "--rig", "bench-rail.toml")
	require.EqualError(t, err, "rig.schema.json is already there and nothing was written; --force writes over it")
}

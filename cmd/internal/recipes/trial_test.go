package recipes_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// trial is the tree with a move, a law and a format more, each a file and a line as its
// recipe says, laid over it: no file of the tree is touched.
type trial struct {
	t       *testing.T
	over    map[string]string // file of the tree -> what stands there
	dir     string            // what is made lies here
	overlay string            // the list for the go tool
}

// file puts what a file of testdata holds into the tree.
func (x *trial) file(place, from string, change func(string) string) {
	x.t.Helper()
	text, err := os.ReadFile(from)
	require.NoError(x.t, err)
	changed := change(string(text))
	there, err := filepath.Abs(filepath.Join(root, place))
	require.NoError(x.t, err)
	made := filepath.Join(x.dir, strconv.Itoa(len(x.over))+".go")
	require.NoError(x.t, os.WriteFile(made, []byte(changed), 0o600))
	x.over[there] = made
}

// line adds a line to a file of the tree, after one that is there.
func (x *trial) line(place, after, line string) {
	x.t.Helper()
	x.file(place, filepath.Join(root, place), func(text string) string {
		require.Equal(x.t, 1, strings.Count(text, after), "%s: %s", place, after)
		return strings.Replace(text, after, after+line, 1)
	})
}

// next is one more than the greatest number that a pattern finds in files.
func next(t *testing.T, pattern, files string) int {
	t.Helper()
	list, err := filepath.Glob(filepath.Join(root, files))
	require.NoError(t, err)
	most := 0
	for _, name := range list {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		for _, m := range regexp.MustCompile(pattern).FindAllSubmatch(text, -1) {
			n, err := strconv.Atoi(string(m[1]))
			require.NoError(t, err)
			most = max(most, n)
		}
	}
	require.Positive(t, most)
	return most + 1
}

// added follows the recipes.
func added(t *testing.T) *trial {
	t.Helper()
	x := &trial{t: t, over: map[string]string{}, dir: t.TempDir()}
	same := func(text string) string { return text }
	x.file("motion/move/bob.go", "testdata/move.go", same)
	last := next(t, `list:"(\d+)"`, "motion/move/raw.go")
	x.line("motion/move/raw.go", "\ntype Raw struct {\n", fmt.Sprintf("\tBobKeys `list:\"%d\"`\n", last))
	x.file("motion/law/poly56789.go", "testdata/law.go", same)
	x.line("motion/law/named.go", "\tpoly4567{},\n", "\tpoly56789{},\n")
	x.file("export/reaches/reaches.go", "testdata/writer.go", same)
	x.file("cmd/internal/format/reaches.go", "testdata/format.go", func(text string) string {
		last := next(t, `Place: (\d+)`, "cmd/internal/format/*.go")
		return strings.Replace(text, "Place: 0", fmt.Sprintf("Place: %d", last), 1)
	})
	x.line("cmd/internal/format/table.go", "\tcueFiles,\n", "\treachesList,\n")
	list, err := json.Marshal(map[string]map[string]string{"Replace": x.over})
	require.NoError(t, err)
	x.overlay = filepath.Join(x.dir, "overlay.json")
	require.NoError(t, os.WriteFile(x.overlay, list, 0o600))
	return x
}

// run runs a program in the trial's folder.
func (x *trial) run(code int, program string, args ...string) string {
	x.t.Helper()
	cmd := exec.Command(program, args...)
	cmd.Dir = x.dir
	out, _ := cmd.CombinedOutput()
	require.Equal(x.t, code, cmd.ProcessState.ExitCode(), "%q: %s", args, out)
	return string(out)
}

// TestRecipesAreFollowed: with SEAMRAIL_RECIPES, as it compiles half the program anew.
func TestRecipesAreFollowed(t *testing.T) {
	if os.Getenv("SEAMRAIL_RECIPES") == "" {
		t.Skip("set SEAMRAIL_RECIPES to add a move, a law and a format on trial")
	}
	x := added(t)
	program := filepath.Join(x.dir, "seamrail")
	build := exec.Command("go", "build", "-overlay", x.overlay, "-o", program, "./cmd/seamrail")
	build.Dir = root
	out, err := build.CombinedOutput()
	require.NoError(t, err, string(out))
	// What fails is what somebody who forgot the rest of the recipe is told.
	told := x.failing()
	x.run(0, program, "new", "day")
	schema, err := os.ReadFile(filepath.Join(x.dir, "day", "shot.schema.json"))
	require.NoError(t, err)
	t.Run("a move", func(t *testing.T) {
		rail := "[clock]\nplayback = \"24\"\nloop = \"4 s\"\n[rig]\nfile = \"bench-rail.toml\"\n[axis.rail]\n"
		file := filepath.Join(x.dir, "day", "bob.toml")
		require.NoError(t, os.WriteFile(file, []byte(rail+"rest = \"70 mm\"\nby = \"6 mm\"\n"), 0o600))
		assert.Contains(t, x.run(0, program, "plan", file), "bobs about 70 mm by 6 mm")
		require.NoError(t, os.WriteFile(file, []byte(rail+"move = \"bop\"\nrest = \"70 mm\"\n"), 0o600))
		assert.Regexp(t, `"bop" must be .*\bbob\b`, x.run(2, program, "plan", file))
		asked := slices.Contains(told, "TestTheSchemaHasEveryMove")
		assert.True(t, asked || strings.Contains(string(schema), `"bob: the middle`), "it is in the schema")
		assert.Contains(t, told, "TestEveryMoveIsEverywhere", "its row in the README is missing")
	})
	t.Run("a law", func(t *testing.T) {
		assert.Regexp(t, `by the\s+5-6-7-8-9`, x.run(0, program, "plan", "--law", "5-6-7-8-9"))
		assert.Contains(t, x.run(2, program, "plan", "--law", "5-6-7-8"), `did you mean "5-6-7-8-9"`)
		assert.Contains(t, x.run(0, program, "__complete", "plan", "--law", "5"), "5-6-7-8-9")
		assert.Subset(t, told, []string{"TestNames", "TestPeakFactors"}, "it is missing there")
	})
	t.Run("a format", func(t *testing.T) {
		assert.Contains(t, x.run(0, program, "export", "reaches"), "rail 60.000\n")
		assert.Regexp(t, `reaches +text, how far each axis goes`, x.run(0, program, "help", "export"))
		x.run(0, program, "make", "-o", "out")
		index, err := os.ReadFile(filepath.Join(x.dir, "out", "index.txt"))
		require.NoError(t, err)
		assert.Regexp(t, `(?m)^  reaches.txt +how far each axis goes$`, string(index))
		assert.FileExists(t, filepath.Join(x.dir, "out", "reaches.txt"))
		assert.Contains(t, told, "TestTheReadmeNamesEveryFile", "it is missing there")
	})
}

// hold are the tests that the recipes name, with the packages that they are in.
var hold = map[string]string{
	"./motion/move":         "TestEveryMoveAnswersEverything|TestWhatMovesCanDo|TestTheSchemaHasEveryMove",
	"./motion/law":          ".",
	"./cmd/internal/page":   "TestEveryMoveIsEverywhere",
	"./cmd/internal/format": "TestEveryRowAnswers|TestTheIndexIsTheTable|TestEveryFormatIsWritten|NamesEveryFile",
}

// mayFail are those of them that ask for what stands in the README, in a schema or in a
// test.
var mayFail = []string{"TestEveryMoveIsEverywhere", "TestTheSchemaHasEveryMove", "TestNames",
	"TestPeakFactors", "TestTinyStart", "TestTheReadmeNamesEveryFile"}

// failing runs the tests that the recipes name, wants all to pass but those that ask for
// more than a file and a line, and returns those that did not.
func (x *trial) failing() []string {
	x.t.Helper()
	var out []string
	for folder, which := range hold {
		cmd := exec.Command("go", "test", "-json", "-overlay", x.overlay, "-run", which, folder)
		cmd.Dir = root
		said, _ := cmd.Output()
		passed := 0
		for line := range bytes.Lines(said) {
			var e struct{ Action, Test string }
			require.NoError(x.t, json.Unmarshal(line, &e))
			switch {
			case e.Action == "pass" && e.Test != "":
				passed++
			case e.Action == "fail" && e.Test != "":
				out = append(out, e.Test)
				assert.Contains(x.t, mayFail, e.Test, "%s", folder)
			}
		}
		assert.Positive(x.t, passed, "%s: %s", folder, said)
	}
	return out
}

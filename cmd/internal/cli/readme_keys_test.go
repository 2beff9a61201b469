package cli

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli/command"
)

// keysOf gathers every key of a JSON value, however deep.
func keysOf(v any, into map[string]bool) {
	switch v := v.(type) {
	case map[string]any:
		for key, one := range v {
			into[key] = true
			keysOf(one, into)
		}
	case []any:
		for _, one := range v {
			keysOf(one, into)
		}
	}
}

// sectionAndReport is a section of the README and the JSON that a command writes.
func sectionAndReport(t *testing.T, heading string, words ...string) (section string, document map[string]any) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "..", "README.md"))
	require.NoError(t, err)
	_, section, found := strings.Cut(string(text), "\n## "+heading+"\n")
	require.True(t, found)
	section, _, _ = strings.Cut(section, "\n## ")
	var out, errs bytes.Buffer
	require.Zero(t, Run(command.Streams{In: strings.NewReader(""), Out: &out, Err: &errs}, append(words, "--json")), errs.String())
	require.NoError(t, json.Unmarshal(out.Bytes(), &document))
	require.NotEmpty(t, document)
	return section, document
}

// keysInReadme wants every key at the top of the JSON that a command writes in a section
// of the README.
func keysInReadme(t *testing.T, heading string, words ...string) {
	t.Helper()
	section, document := sectionAndReport(t, heading, words...)
	for key := range document {
		assert.Contains(t, section, "`"+key+"`")
	}
}

func TestTheReadmeNamesEveryKeyOfFit(t *testing.T) {
	keysInReadme(t, "Picture", "fit", "--laws", "3-4-5")
}

// Every key of a sequence's report, however deep, is in the README's section.
func TestTheReadmeNamesEveryKeyOfASequence(t *testing.T) {
	section, document := sectionAndReport(t, "Sequence", "sequence")
	keys := map[string]bool{}
	keysOf(document, keys)
	for key := range keys {
		assert.Contains(t, section, "`"+key+"`")
	}
	assert.Greater(t, len(keys), 35)
}

func TestTheReadmeNamesEveryKeyOfTheShakeReport(t *testing.T) {
	keysInReadme(t, "After-shake", "shake", "--frequency", "6 Hz")
}

func TestTheReadmeNamesEveryKeyOfSpin(t *testing.T) {
	keysInReadme(t, "Spin", "spin", "--period", "7.3 s")
}

// Every key of the motion document is in the README's table. A take is kept, and
// to a longer loop it is one that another plan has filmed, so that both lists have
// something in them.
func TestTheReadmeNamesEveryKeyOfTheMotion(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "..", "..", "README.md"))
	require.NoError(t, err)
	_, section, found := strings.Cut(string(text), "\n## Hand-off\n")
	require.True(t, found)
	section, _, _ = strings.Cut(section, "\n## ")
	t.Chdir(t.TempDir())
	run := func(args ...string) string {
		var out, errs bytes.Buffer
		require.Zero(t, Run(command.Streams{In: strings.NewReader(""), Out: &out, Err: &errs}, args), errs.String())
		return out.String()
	}
	run("new", "shots")
	name := filepath.Join("shots", "lantern.toml")
	run("drive", name, "--virtual", "--fast", "--confirmed")
	madeReal(t, filepath.Join("shots", "lantern.takes.jsonl"))
	run("takes", name, "--keep")
	keys := map[string]bool{}
	for _, args := range [][]string{{}, {"--loop", "7 s"}} {
		var document any
		require.NoError(t, json.Unmarshal([]byte(run(append([]string{"export", "motion", name}, args...)...)), &document))
		keysOf(document, keys)
	}
	require.Contains(t, keys, "why")
	require.Contains(t, keys, "forward")
	for key := range keys {
		assert.Contains(t, section, "`"+key+"`")
	}
}

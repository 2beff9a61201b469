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
		require.Zero(t, Run(Streams{In: strings.NewReader(""), Out: &out, Err: &errs}, args), errs.String())
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

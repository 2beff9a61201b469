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

	"seamrail/export/drive/takelog"
	"seamrail/motion/kept"
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

// Without a named shot one log holds takes of many shots, of which only those of
// this plan count.
func TestWhoseTakes(t *testing.T) {
	log := takelog.Log{Takes: []takelog.Take{
		{Number: 1, Keep: true, Begin: takelog.Record{Plan: "mine"}, End: takelog.Record{Rounds: 3}, Notes: []string{"steam"}},
		{Number: 2, Begin: takelog.Record{Plan: "mine"}},
		{Number: 3, Keep: true, Begin: takelog.Record{Plan: "other"}, Cut: true},
		{Number: 4, Keep: true, Begin: takelog.Record{Plan: "mine"}, End: takelog.Record{Rounds: 2, Held: true}},
		{Number: 1, Keep: true, Begin: takelog.Record{Plan: "mine", Virtual: true}, End: takelog.Record{Rounds: 3}},
	}}
	first := kept.Filmed{Number: 1, Plan: "mine", Rounds: 3, Notes: []string{"steam"}}
	other := kept.Filmed{Number: 3, Plan: "other", Cut: true}
	held := kept.Filmed{Number: 4, Plan: "mine", Rounds: 2, Held: true}
	require.Equal(t, []kept.Filmed{first, other, held}, filmed(log, true, "mine"))
	require.Equal(t, []kept.Filmed{first, held}, filmed(log, false, "mine"))
}

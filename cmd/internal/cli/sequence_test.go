package cli_test

import (
	"bytes"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli"
)

func TestSequenceParses(t *testing.T) {
	var got *cli.SequenceOptions
	c := cli.NewCmdSequence(cli.Streams{}, func(o *cli.SequenceOptions) error { got = o; return nil })
	require.NoError(t, parse(c, "day/clip.toml", "--json", "--takes", "5", "-o", "strip.pdf"))
	assert.Equal(t, "day/clip.toml", got.File)
	assert.Equal(t, "strip.pdf", got.Output)
	assert.True(t, got.JSON)
	assert.Equal(t, "5", got.Takes)
	c = cli.NewCmdSequence(cli.Streams{}, func(o *cli.SequenceOptions) error { got = o; return nil })
	require.NoError(t, parse(c))
	assert.Empty(t, got.File)
	assert.Empty(t, got.Output)
	assert.Error(t, parse(c, "a.toml", "b.toml"))
}

// keysOf lists every key of a JSON document, at whatever depth.
func keysOf(value any, see func(string)) {
	switch v := value.(type) {
	case map[string]any:
		for key, inner := range v {
			see(key)
			keysOf(inner, see)
		}
	case []any:
		for _, inner := range v {
			keysOf(inner, see)
		}
	}
}

// Every key of a sequence's report is in the README's section.
func TestTheReadmeNamesEveryKeyOfASequence(t *testing.T) {
	text, err := os.ReadFile("../../../README.md")
	require.NoError(t, err)
	_, section, ok := strings.Cut(string(text), "\n## Sequence\n")
	require.True(t, ok)
	section, _, _ = strings.Cut(section, "\n## ")
	var out, errs bytes.Buffer
	require.Zero(t, cli.Run(cli.Streams{In: strings.NewReader(""), Out: &out, Err: &errs}, []string{"sequence", "--json"}), errs.String())
	var document map[string]any
	require.NoError(t, json.Unmarshal(out.Bytes(), &document))
	n := 0
	keysOf(document, func(key string) {
		n++
		assert.Contains(t, section, "`"+key+"`")
	})
	assert.Greater(t, n, 50)
}

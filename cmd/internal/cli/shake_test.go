package cli_test

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli"
)

func TestShakeParses(t *testing.T) {
	var got *cli.ShakeOptions
	c := cli.NewCmdShake(cli.Streams{}, func(o *cli.ShakeOptions) error { got = o; return nil })
	require.NoError(t, parse(c, "a.toml", "--axis", "rail", "--ring-down", "k.csv", "--column", "2", "--pixels-per-mm", "12", "--json", "-o", "s.png"))
	assert.Equal(t, "a.toml", got.Shot.Shot)
	assert.Equal(t, "rail", got.Shot.Axis)
	assert.Equal(t, "k.csv", got.RingDown)
	assert.Equal(t, 2, got.Column)
	assert.Equal(t, "12", got.Pixels)
	assert.True(t, got.JSON)
	assert.Equal(t, "s.png", got.Output)

	c = cli.NewCmdShake(cli.Streams{}, func(o *cli.ShakeOptions) error { got = o; return nil })
	require.NoError(t, parse(c, "--peaks", "2 at 0.1 s,1 at 0.3 s"))
	assert.Equal(t, []string{"2 at 0.1 s", "1 at 0.3 s"}, got.Peaks)
	assert.Error(t, parse(c, "a.toml", "b.toml"))
}

func TestTheReadmeNamesEveryKeyOfTheShakeReport(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "..", "..", "README.md"))
	require.NoError(t, err)
	var out, errs bytes.Buffer
	require.Zero(t, cli.Run(cli.Streams{In: strings.NewReader(""), Out: &out, Err: &errs}, []string{"shake", "--frequency", "6 Hz", "--json"}), errs.String())
	var document map[string]any
	require.NoError(t, json.Unmarshal(out.Bytes(), &document))
	require.NotEmpty(t, document)
	for key := range document {
		assert.Contains(t, string(text), "`"+key+"`")
	}
}

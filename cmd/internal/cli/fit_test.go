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

	"seamrail/motion/picture"
)

// keysInReadme wants every key of the JSON that a command writes in a section of
// the README.
func keysInReadme(t *testing.T, heading string, command ...string) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "..", "README.md"))
	require.NoError(t, err)
	_, section, found := strings.Cut(string(text), "\n## "+heading+"\n")
	require.True(t, found)
	section, _, _ = strings.Cut(section, "\n## ")
	var out, errs bytes.Buffer
	require.Zero(t, Run(Streams{In: strings.NewReader(""), Out: &out, Err: &errs}, append(command, "--json")), errs.String())
	var document map[string]any
	require.NoError(t, json.Unmarshal(out.Bytes(), &document))
	for key := range document {
		assert.Contains(t, section, "`"+key+"`")
	}
}

func TestTheReadmeNamesEveryKeyOfFit(t *testing.T) {
	keysInReadme(t, "Picture", "fit", "--laws", "3-4-5")
}

func TestFitParses(t *testing.T) {
	var got *FitOptions
	c := NewCmdFit(Streams{}, func(o *FitOptions) error { got = o; return nil })
	c.SetArgs([]string{"lantern.toml", "--between", "4 s,12 s", "--laws", "3-4-5,harmonic", "--accept", "good", "--json", "--loop", "5 s"})
	require.NoError(t, c.Execute())
	assert.Equal(t, "lantern.toml", got.Shot.Shot)
	assert.Equal(t, []string{"4 s", "12 s"}, got.Between)
	assert.Equal(t, []string{"3-4-5", "harmonic"}, got.Laws)
	assert.Equal(t, picture.Good.String(), got.Accept)
	assert.True(t, got.JSON)
}

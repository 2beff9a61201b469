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

// Every key of the fit report is in the README's section of it.
func TestTheReadmeNamesEveryKeyOfFit(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "..", "..", "README.md"))
	require.NoError(t, err)
	_, section, found := strings.Cut(string(text), "\n## Picture\n")
	require.True(t, found)
	section, _, _ = strings.Cut(section, "\n## ")
	var out, errs bytes.Buffer
	require.Zero(t, Run(Streams{In: strings.NewReader(""), Out: &out, Err: &errs}, []string{"fit", "--laws", "3-4-5", "--json"}), errs.String())
	var document map[string]any
	require.NoError(t, json.Unmarshal(out.Bytes(), &document))
	for key := range document {
		assert.Contains(t, section, "`"+key+"`")
	}
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

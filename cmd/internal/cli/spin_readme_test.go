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

// Every key of the spin report is in the README's table of it.
func TestTheReadmeNamesEveryKeyOfSpin(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "..", "..", "README.md"))
	require.NoError(t, err)
	_, section, found := strings.Cut(string(text), "\n## Spin\n")
	require.True(t, found)
	section, _, _ = strings.Cut(section, "\n## ")
	var out, errs bytes.Buffer
	require.Zero(t, Run(Streams{In: strings.NewReader(""), Out: &out, Err: &errs}, []string{"spin", "--period", "7.3 s", "--json"}), errs.String())
	var document map[string]any
	require.NoError(t, json.Unmarshal(out.Bytes(), &document))
	for key := range document {
		assert.Contains(t, section, "`"+key+"`")
	}
}

package recipes_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A name of Go stands in capitals somewhere or behind a dot; of three parts the first is
// the package. What ends as a file does is no name.
var (
	goName   = regexp.MustCompile(`^[a-z]\w*[A-Z]\w*$|^[A-Z]\w*[a-z]\w*$|^[A-Za-z]\w*\.[A-Za-z]\w*(\.[A-Za-z]\w*)?$`)
	fileName = regexp.MustCompile(`\.(go|md|csv|txt|json|toml|ngc|html|sum|mod|png|svg|pdf|wav|vtt|otio|glb|jsonl)$`)
)

// TestThePageNamesWhatIsThere: whatever DEVELOPERS.md calls by a name of Go is declared
// by that name. Who renames something finds out what speaks of it.
func TestThePageNamesWhatIsThere(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	require.NoError(t, err)
	d, looked := declared(t), 0
	for _, w := range quoted.FindAllStringSubmatch(string(text), -1) {
		name := w[1]
		if !goName.MatchString(name) || fileName.MatchString(name) {
			continue
		}
		looked++
		if parts := strings.Split(name, "."); len(parts) == 3 {
			name = parts[1] + "." + parts[2]
		}
		assert.True(t, d.known(name), "DEVELOPERS.md speaks of `%s`, and there is none", w[1])
	}
	assert.Greater(t, looked, 150)
}

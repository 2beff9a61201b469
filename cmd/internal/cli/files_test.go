package cli_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// opens finds what opens or changes a file behind the back of package whole.
var opens = regexp.MustCompile(`\bos\.(Open|OpenFile|OpenRoot|ReadFile|Create|CreateTemp|WriteFile|Rename|Remove|RemoveAll|Mkdir|MkdirAll|Link|Symlink|Truncate)\(`)

// Only package whole opens files for a command, so that none is forgotten that must
// not be written over. Two places have their reason.
func TestFilesAreOpenedInOnePlace(t *testing.T) {
	known := map[string]string{
		"takes_append.go":    "os.OpenFile(", // to append; Changeable has looked at it
		"sequence_folder.go": "os.OpenRoot(", // so that no link leads out; each file is told to whole.Read
	}
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	for _, f := range files {
		if strings.HasSuffix(f, "_test.go") {
			continue
		}
		text, err := os.ReadFile(f)
		require.NoError(t, err)
		for _, found := range opens.FindAllString(string(text), -1) {
			assert.Equal(t, known[f], found, f)
		}
	}
}

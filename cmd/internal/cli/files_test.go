package cli_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// opens finds what opens or changes a file behind the back of package atomicfile.
var opens = regexp.MustCompile(`\bos\.(Open|OpenFile|OpenRoot|ReadFile|Create|CreateTemp|WriteFile|Rename|Remove|RemoveAll|Mkdir|MkdirAll|Link|Symlink|Truncate)\(`)

// Only package atomicfile opens files for a command or for the page, so that none is
// forgotten that must not be written over. A few places have their reason; what stands
// beside the commands and reads no file of theirs is not looked at.
func TestFilesAreOpenedInOnePlace(t *testing.T) {
	known := map[string]string{
		"logbook/append.go": "os.OpenFile(", // to append; Changeable has looked at it
		"clip/clip.go":      "os.OpenRoot(", // so that no link leads out; each file is told to atomicfile.Read
		"page/folder.go":    "os.OpenRoot(", // the same
		// Whether a schema is there as it would be written; another may be written over.
		"cli/newfiles/new.go": "os.ReadFile(",
	}
	// What is dropped on the page, in a folder of its own among the temporary files.
	dropped := []string{"page/film.go", "page/filmbytes.go", "page/filmlook.go", "page/filmstrip.go"}
	beside := []string{"atomicfile", "hold", "host", "deadman"}
	looked := 0
	err := fs.WalkDir(os.DirFS(".."), ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && slices.Contains(beside, name):
			return fs.SkipDir
		case slices.Contains(dropped, name):
			return nil
		case d.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go"):
			return nil
		}
		looked++
		text, err := os.ReadFile(filepath.Join("..", name))
		for _, found := range opens.FindAllString(string(text), -1) {
			assert.Equal(t, known[name], found, name)
		}
		return err
	})
	require.NoError(t, err)
	assert.Greater(t, looked, 80)
}

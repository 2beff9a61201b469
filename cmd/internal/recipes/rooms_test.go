package recipes_test

import (
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A row of the table of packages begins with their folders; one that ends in /... stands
// for all below it too.
var (
	tableRow = regexp.MustCompile("(?m)^\\| (`[^|]*) \\|")
	folder   = regexp.MustCompile("`([a-z0-9/.]+)`")
)

// listed are the folders of the table of packages.
func listed(t *testing.T) []string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	require.NoError(t, err)
	_, table, found := strings.Cut(string(text), "\n| package | in one line |\n")
	require.True(t, found)
	table, _, _ = strings.Cut(table, "\n## ")
	var out []string
	for _, row := range tableRow.FindAllStringSubmatch(table, -1) {
		for _, f := range folder.FindAllStringSubmatch(row[1], -1) {
			out = append(out, f[1])
		}
	}
	return out
}

// packages are the folders with Go files, but for those of tests' data.
func packages(t *testing.T) map[string]bool {
	t.Helper()
	out := map[string]bool{}
	err := fs.WalkDir(os.DirFS(root), ".", func(name string, e fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case e.IsDir() && (e.Name() == "testdata" || name != "." && e.Name()[0] == '.'):
			return fs.SkipDir
		case strings.HasSuffix(name, ".go"):
			out[path.Dir(name)] = true
		}
		return nil
	})
	require.NoError(t, err)
	return out
}

// TestEveryPackageHasARow: a stranger finds each room, and each that is named is there.
func TestEveryPackageHasARow(t *testing.T) {
	all, rows := packages(t), listed(t)
	assert.Greater(t, len(rows), 80)
	known := map[string]bool{"motion": true, "cmd/internal/recipes": true} // tests of the whole
	for _, r := range rows {
		top, below := strings.CutSuffix(r, "/...")
		there := false
		for p := range all {
			if p == top || below && strings.HasPrefix(p, top+"/") {
				known[p], there = true, true
			}
		}
		assert.True(t, there, "DEVELOPERS.md has a row for %s, which is not there", r)
	}
	for p := range all {
		assert.True(t, known[p], "DEVELOPERS.md has no row for %s", p)
	}
}

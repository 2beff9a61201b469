package cli_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// unguarded are the goroutines that are not begun by deadman.Go, by file: that one
// itself, and those of a picture and of a log whose panic is handed to who waits for it.
var unguarded = map[string]int{
	"cmd/internal/deadman/deadman.go": 1,
	"export/drive/takelog/lines.go":   2,
	"plot/preview/animation.go":       1,
}

// A goroutine that panics ends the program, and a rig that moves is held before: each
// is begun by the one function that sees to it.
func TestEveryGoroutineHoldsTheRigBeforeItPanics(t *testing.T) {
	const root = "../../.."
	found := map[string]int{}
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || filepath.Ext(path) != ".go" || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		name, err := filepath.Rel(root, path)
		ast.Inspect(file, func(n ast.Node) bool {
			if _, ok := n.(*ast.GoStmt); ok {
				found[filepath.ToSlash(name)]++
			}
			return true
		})
		return err
	})
	require.NoError(t, err)
	assert.Equal(t, unguarded, found, "begin it with deadman.Go")
}

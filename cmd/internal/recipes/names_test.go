// Package recipes_test follows what DEVELOPERS.md says of adding something: that all it
// names is there, and that a move, a law and a format added as it says are everywhere.
// It holds tests alone.
package recipes_test

import (
	"go/ast"
	"go/parser"
	"go/token"
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

const root = "../../.."

// recipes are the headings that are there, whatever else is.
var recipes = []string{"A move", "A law", "A report", "An export", "A check", "A controller kind", "A starting point",
	"A command", "A chapter of the guide", "A document in JSON", "A question of the page"}

// toAdd is the section on adding something.
func toAdd(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	require.NoError(t, err)
	_, section, found := strings.Cut(string(text), "\n## To add\n")
	require.True(t, found)
	section, _, _ = strings.Cut(section, "\n## ")
	return section
}

// tree is what is declared in the sources of the module, its tests included.
type tree struct {
	names   map[string]bool // whatever is declared by that name, members too
	members map[string]bool // "Type.Member", "package.Name"
	text    strings.Builder // of all sources but this one
}

func (d *tree) add(of, name string) {
	d.names[name] = true
	d.members[of+"."+name] = true
}

// declared reads the sources.
func declared(t *testing.T) *tree {
	t.Helper()
	d := &tree{names: map[string]bool{}, members: map[string]bool{}}
	err := fs.WalkDir(os.DirFS(root), ".", func(name string, e fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case e.IsDir() && (e.Name() == "testdata" || name != "." && e.Name()[0] == '.'):
			return fs.SkipDir
		case e.IsDir(), path.Ext(name) != ".go" && path.Ext(name) != ".js":
			return nil
		}
		text, err := os.ReadFile(filepath.Join(root, name))
		if path.Base(name) != "names_test.go" { // which asks for words that are in none
			d.text.Write(text)
		}
		if err != nil || path.Ext(name) == ".js" {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, text, parser.SkipObjectResolution)
		if err == nil {
			d.read(file)
		}
		return err
	})
	require.NoError(t, err)
	return d
}

// read takes down what a file declares.
func (d *tree) read(file *ast.File) {
	own := file.Name.Name
	for _, decl := range file.Decls {
		switch x := decl.(type) {
		case *ast.FuncDecl:
			d.add(receiver(x, own), x.Name.Name)
		case *ast.GenDecl:
			for _, spec := range x.Specs {
				d.spec(own, spec)
			}
		}
	}
}

// receiver is the type of a method, or the package of a function.
func receiver(f *ast.FuncDecl, own string) string {
	if f.Recv == nil {
		return own
	}
	of := f.Recv.List[0].Type
	if p, ok := of.(*ast.StarExpr); ok {
		of = p.X
	}
	if name, ok := of.(*ast.Ident); ok {
		return name.Name
	}
	return own
}

func (d *tree) spec(own string, spec ast.Spec) {
	switch x := spec.(type) {
	case *ast.ValueSpec:
		for _, n := range x.Names {
			d.add(own, n.Name)
		}
	case *ast.TypeSpec:
		d.add(own, x.Name.Name)
		ast.Inspect(x.Type, func(n ast.Node) bool {
			if f, ok := n.(*ast.Field); ok {
				for _, name := range f.Names {
					d.add(x.Name.Name, name.Name)
				}
			}
			return true
		})
	}
}

var (
	quoted     = regexp.MustCompile("`([^`]+)`")
	identifier = regexp.MustCompile(`^[A-Za-z_]\w*$`)
	qualified  = regexp.MustCompile(`^[A-Za-z_]\w*\.[A-Za-z_]\w*$`)
	located    = regexp.MustCompile(`^[\w.-]+(/[\w.-]+)+$|^[A-Z]+\.md$`)
	stand      = regexp.MustCompile(`X`) // in NewCmdX and the like, for a name of one's own
)

// known tells whether what stands in backquotes is there: a file or a folder, what is
// declared, or else words of some source.
func (d *tree) known(word string) bool {
	switch {
	case located.MatchString(word):
		_, err := os.Stat(filepath.Join(root, word))
		return err == nil
	case identifier.MatchString(word):
		if d.names[word] || stand.MatchString(word) && d.begins(stand.Split(word, 2)[0]) {
			return true
		}
	case qualified.MatchString(word):
		if d.members[word] {
			return true
		}
	}
	return strings.Contains(d.text.String(), word)
}

// begins tells whether some name begins so.
func (d *tree) begins(with string) bool {
	for name := range d.names {
		if with != "" && strings.HasPrefix(name, with) {
			return true
		}
	}
	return false
}

// TestTheRecipesNameWhatIsThere: each file, folder, function, type and test that a
// recipe names.
func TestTheRecipesNameWhatIsThere(t *testing.T) {
	section, d := toAdd(t), declared(t)
	for _, r := range recipes {
		assert.Contains(t, section, "\n### "+r+"\n")
	}
	words := quoted.FindAllStringSubmatch(section, -1)
	assert.Greater(t, len(words), 80, "recipes name what they are about")
	for _, w := range words {
		word := strings.Join(strings.Fields(w[1]), " ")
		if rest, is := strings.CutPrefix(word, "go test "); is {
			word, _, _ = strings.Cut(strings.TrimPrefix(rest, "./"), " ")
		}
		assert.True(t, d.known(word), "DEVELOPERS.md, To add, names `%s`, and there is none", word)
	}
}

// TestWhatIsNotThereIsFound: a recipe that names what has gone is told.
func TestWhatIsNotThereIsFound(t *testing.T) {
	d := declared(t)
	for word, there := range map[string]bool{
		"motion/law":                     true,
		"motion/laws":                    false,
		"DEVELOPERS.md":                  true,
		"README.txt":                     false,
		"TestEveryMoveIsEverywhere":      true,
		"TestEveryMoveIsSomewhere":       false,
		"Raw.Read":                       true,
		"Raw.Wrote":                      false,
		"law.Kind":                       true,
		"law.Nothing":                    false,
		"Export.Name":                    true,
		"NewCmdX":                        true,
		"NewCommandX":                    false,
		`jsonschema:"-"`:                 true,
		"such words are in no source of": false,
	} {
		assert.Equal(t, there, d.known(word), word)
	}
}

package motion_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/law/optimal"
	"seamrail/motion/move"
)

// Nobody asks a move, or a law, what it is called: whoever wants to know something of
// it asks for that (motion/move/can.go, motion/law/kind.go). So a new one is a file
// and a line, and one that nobody thought of falls through nowhere.

// movesRoom has one file a move.
const movesRoom = "motion/move"

// otherWords are texts that are a move's name by chance, each with what it is there.
var otherWords = map[string]string{
	"motion/base/unit/symbol.go turn":                   "a unit of angle",
	"motion/base/unit/format.go turn":                   "a unit of angle",
	"motion/spec/rig/mechanics.go turn":                 "a unit of angle",
	"motion/spec/rig/controllertalk.go hold":            "the byte that stops a controller",
	"motion/spec/rig/rigfile/controller.go hold":        "the byte that stops a controller",
	"motion/move/keyreader.go hold":                     "how long a key is held",
	"motion/move/keys.go hold":                          "how long a key is held",
	"motion/spec/shot/fade.go keys":                     "a key of a lamp",
	"motion/spec/shot/pull.go keys":                     "a key of a pull",
	"cmd/internal/starter/kinds/list.go there-and-back": "a kind of shot to begin with",
	"motion/plan/reshape/things.go keys":                "keys of a lamp and of a pull",
	"motion/plan/reshape/add.go hold":                   "how long a key is held",
	"motion/plan/reshape/add.go keys":                   "keys of a lamp",
	"motion/plan/reshape/key.go hold":                   "how long a key is held",
	"motion/plan/judge/swing.go swing":                  "a figure, how far the load swings",
	"export/report/planreport/stand.go turn":            "a turn of a stand, counted",
	"export/report/spinreport/words.go turn":            "a turn of a stand, counted",
	"export/report/spinreport/best.go turn":             "a turn of a stand, counted",
	"cmd/internal/measuring/walk.go turn":               "what is measured of a turntable",
	"cmd/internal/measuring/walk.go swing":              "what is measured with a phone",
	"cmd/internal/cli/jog.go hold":                      "what is done with a key",
	"cmd/internal/page/site/script/marks.js hold":       "that checks hold",
}

// moveFiles are the file of each move by its name.
func moveFiles(t *testing.T) map[string]string {
	out := map[string]string{}
	for _, k := range move.Kinds() {
		name := strings.TrimSuffix(reflect.TypeOf(k).Name(), "Keys")
		file := path.Join(movesRoom, strings.ToLower(name)+".go")
		_, err := os.Stat(filepath.Join("..", file))
		require.NoError(t, err, "the move %q has a file of its own", k.Name())
		out[k.Name()] = file
	}
	return out
}

// asked is a place that asks for a name or a kind.
type asked struct{ file, what string }

// questions are all places in a parsed file that ask a move or a law what it is: texts
// that are a move's name, types of moves in assertions, and names of laws compared.
func questions(file string, parsed *ast.File, moves, types map[string]string, laws []string) []asked {
	var out []asked
	add := func(what string) { out = append(out, asked{file, what}) }
	concrete := func(x ast.Expr) {
		if s, ok := x.(*ast.StarExpr); ok {
			x = s.X
		}
		name := ""
		switch x := x.(type) {
		case *ast.SelectorExpr:
			if p, ok := x.X.(*ast.Ident); ok && p.Name == path.Base(movesRoom) {
				name = x.Sel.Name
			}
		case *ast.Ident:
			if path.Dir(file) == movesRoom {
				name = x.Name
			}
		}
		if own, is := types[name]; is && own != file {
			add("the type " + name)
		}
	}
	lawNamed := func(x ast.Expr) {
		switch x := x.(type) {
		case *ast.BasicLit:
			if text, err := strconv.Unquote(x.Value); err == nil && slices.Contains(laws, text) {
				add("the law " + text)
			}
		case *ast.SelectorExpr:
			if p, ok := x.X.(*ast.Ident); ok && p.Name == "optimal" && strings.HasSuffix(x.Sel.Name, "Name") {
				add("the law optimal." + x.Sel.Name)
			}
		}
	}
	ast.Inspect(parsed, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.BasicLit:
			text, err := strconv.Unquote(n.Value)
			if own, is := moves[text]; n.Kind == token.STRING && err == nil && is && own != file {
				add(text)
			}
		case *ast.TypeAssertExpr:
			if n.Type != nil {
				concrete(n.Type)
			}
		case *ast.TypeSwitchStmt:
			for _, c := range n.Body.List {
				for _, x := range c.(*ast.CaseClause).List {
					concrete(x)
				}
			}
		case *ast.BinaryExpr:
			if n.Op == token.EQL || n.Op == token.NEQ {
				lawNamed(n.X)
				lawNamed(n.Y)
			}
		case *ast.CaseClause:
			for _, x := range n.List {
				lawNamed(x)
			}
		case *ast.CallExpr:
			if f, ok := n.Fun.(*ast.SelectorExpr); ok && (f.Sel.Name == "Named" || f.Sel.Name == "Contains") {
				for _, x := range n.Args {
					lawNamed(x)
				}
			}
		}
		return true
	})
	return out
}

func TestNobodyAsksWhatAMoveIsCalled(t *testing.T) {
	moves := moveFiles(t)
	types, laws := typesAndLaws(moves)
	used := map[string]bool{}
	tell := func(a asked) {
		key := a.file + " " + a.what
		used[key] = true
		assert.Contains(t, otherWords, key, "%s asks for %s: ask what it can do instead (%s/can.go)", a.file, a.what, movesRoom)
	}
	for _, file := range sources(t, ".go") {
		if strings.HasSuffix(file, "_test.go") || path.Dir(file) == "motion/plan/sample" {
			continue
		}
		parsed, err := parser.ParseFile(token.NewFileSet(), filepath.Join("..", file), nil, 0)
		require.NoError(t, err)
		for _, a := range questions(file, parsed, moves, types, laws) {
			tell(a)
		}
	}
	quoted := regexp.MustCompile("[\"'`]([a-z-]+)[\"'`]")
	for _, file := range sources(t, ".js") {
		if path.Base(path.Dir(file)) == "joined" { // of what has been looked through
			continue
		}
		text, err := os.ReadFile(filepath.Join("..", file))
		require.NoError(t, err)
		for _, m := range quoted.FindAllStringSubmatch(string(text), -1) {
			if _, is := moves[m[1]]; is {
				tell(asked{file, m[1]})
			}
		}
	}
	for key := range otherWords {
		assert.True(t, used[key], "%s is let pass, and is not there any more", key)
	}
}

func typesAndLaws(moves map[string]string) (types map[string]string, laws []string) {
	types = map[string]string{}
	for _, k := range move.Kinds() {
		keys := reflect.TypeOf(k).Name()
		types[keys], types[strings.TrimSuffix(keys, "Keys")] = moves[k.Name()], moves[k.Name()]
	}
	for _, k := range optimal.Kinds() {
		laws = append(laws, k.Name())
	}
	return types, laws
}

// Each kind of question is found, and what only looks like one is not.
func TestQuestionsAreFound(t *testing.T) {
	moves := moveFiles(t)
	types, laws := typesAndLaws(moves)
	for body, want := range map[string]int{
		`if m.Does.Kind() == "turn" {}`:                        1,
		`switch m.Does.Kind() { case "arc", "aim": }`:          2,
		`if m.Does.Kind() == kind {}; kind = "there-and-back"`: 1,
		`_, ok := m.Does.(move.Turn)`:                          1,
		`switch m.Does.(type) { case move.Hold, *move.Keys: }`: 2,
		`_, ok := m.Does.(move.Turner)`:                        0,
		`if l.Name() == "uniform" {}`:                          1,
		`if l.Name() != optimal.QuietName {}`:                  1,
		`switch l.Name() { case "3-4-5": }`:                    1,
		`l, err := law.Named("harmonic")`:                      1,
		`if a.Law().Name() == b.Law().Name() {}`:               0,
		`say("turns round", "the law 3-4-5 would do")`:         0,
		"type x struct { Turns string `toml:\"turn\"` }":       0,
	} {
		parsed, err := parser.ParseFile(token.NewFileSet(), "x.go", "package x\nfunc f() {\n"+body+"\n}", 0)
		require.NoError(t, err, body)
		assert.Len(t, questions("motion/plan/x.go", parsed, moves, types, laws), want, body)
	}
}

// sources are the files of the program with an ending, from its root.
func sources(t *testing.T, ending string) []string {
	t.Helper()
	var out []string
	err := fs.WalkDir(os.DirFS(".."), ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && name != "." && (strings.HasPrefix(d.Name(), ".") || d.Name() == "testdata"):
			return fs.SkipDir
		case !d.IsDir() && strings.HasSuffix(name, ending):
			out = append(out, name)
		}
		return nil
	})
	require.NoError(t, err)
	require.NotEmpty(t, out, fmt.Sprintf("files that end in %s", ending))
	return out
}

package motion_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// kindsAsked finds where a file compares something with a kind of controller by name.
func kindsAsked(file *ast.File) []string {
	var out []string
	kind := func(e ast.Expr) {
		if s, ok := e.(*ast.SelectorExpr); ok {
			e = s.Sel
		}
		if name, ok := e.(*ast.Ident); ok {
			switch name.Name {
			case "Buffered", "Lockstep", "StepPlayer", "TwoEnds":
				out = append(out, name.Name)
			}
		}
	}
	ast.Inspect(file, func(n ast.Node) bool {
		switch x := n.(type) {
		case *ast.BinaryExpr:
			kind(x.X)
			kind(x.Y)
		case *ast.CaseClause:
			for _, e := range x.List {
				kind(e)
			}
		}
		return true
	})
	return out
}

// TestNobodyAsksWhichControllerItIs: whoever needs to know something of a controller
// asks what its kind can do (motion/spec/rig/kinds.go), so that a new kind is a row there.
func TestNobodyAsksWhichControllerItIs(t *testing.T) {
	for _, name := range sources(t, ".go") {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), filepath.Join("..", name), nil, 0)
		require.NoError(t, err)
		assert.Empty(t, kindsAsked(file), name)
	}
}

// Comparing and choosing by a kind are found; naming one is not asking.
func TestControllersThatAreAskedAreFound(t *testing.T) {
	for body, want := range map[string]int{
		"if c.Kind == rig.StepPlayer {}":                1,
		"if c.Kind != Buffered {}":                      1,
		"switch c.Kind { case rig.Lockstep, rig.Odd: }": 1,
		"c.Kind = rig.Buffered":                         0,
		"if c.Kind.PlaysSteps() {}":                     0,
	} {
		file, err := parser.ParseFile(token.NewFileSet(), "x.go", "package x\nfunc f() {\n"+body+"\n}", 0)
		require.NoError(t, err, body)
		assert.Len(t, kindsAsked(file), want, body)
	}
}

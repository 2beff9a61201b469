package page

import (
	"bytes"
	"cmp"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write anew what the scripts are told of questions, answers and the page")

// kept writes a file of types, or wants it to be as it is.
func kept(t *testing.T, file, text string) {
	t.Helper()
	name := filepath.Join("testdata", "types", file)
	if *update {
		require.NoError(t, os.WriteFile(name, []byte(text), 0o644))
	}
	have, err := os.ReadFile(name)
	require.NoError(t, err)
	if text != string(have) {
		t.Errorf("go test ./cmd/internal/page -run Told -update writes %s anew: its line %d is another", file, firstOther(text, string(have)))
	}
}

// firstOther is the first line in which two texts differ.
func firstOther(a, b string) int {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	n := 0
	for n < min(len(x), len(y)) && x[n] == y[n] {
		n++
	}
	return n + 1
}

// What the scripts are told of the wire is what Go says on it: a field that is called
// something else here is one that the checker finds missing there.
func TestTheWireIsToldAsItIs(t *testing.T) {
	w := readWire(t)
	var b strings.Builder
	b.WriteString("// Written by a test of package page from the structs of Go: what goes over the wire.\n\ndeclare namespace Wire {\n")
	for _, name := range w.names() {
		fmt.Fprintf(&b, "  interface %s%s {\n", name, w.bases[name])
		for _, f := range w.structs[name] {
			fmt.Fprintf(&b, "    %s: %s;%s\n", f.name, f.kind, f.said)
		}
		b.WriteString("  }\n")
	}
	for _, of := range []struct {
		name, said string
		list       map[string]string
	}{
		{"Questions", "What each question asks; what is left out is nothing, 0 or false.", w.questions},
		{"Answers", "What each is answered with, where that is JSON.", w.answers},
	} {
		fmt.Fprintf(&b, "  /** %s */\n  interface %s {\n", of.said, of.name)
		for _, path := range slices.Sorted(maps.Keys(of.list)) {
			fmt.Fprintf(&b, "    %q: %s;\n", path, of.list[path])
		}
		b.WriteString("  }\n")
	}
	b.WriteString("}\n")
	kept(t, "wire.d.ts", b.String())
}

// The scripts find by name what the pages have, as the elements that these are.
func TestThePartsOfThePageAreTold(t *testing.T) {
	var lines []string
	for _, name := range []string{"index.html", "shots.html"} {
		page, err := assets.ReadFile("site/" + name)
		require.NoError(t, err)
		parts := partsOf(string(page))
		require.NotEmpty(t, parts)
		require.Len(t, slices.Compact(slices.Clone(parts)), len(parts), "two parts have one name")
		lines = append(lines, parts...)
	}
	slices.Sort(lines)
	lines = slices.Compact(lines)
	kept(t, "parts.d.ts", "// Written by a test of package page from its pages: their parts by their names.\n\ninterface Parts {\n"+strings.Join(lines, "")+"}\n")
}

func partsOf(page string) (lines []string) {
	for _, m := range regexp.MustCompile(`<(\w+)[^<>]*\sid="([^"]+)"`).FindAllStringSubmatch(page, -1) {
		kind := "HTML"
		if m[1] == "svg" {
			kind = "SVG"
		}
		lines = append(lines, fmt.Sprintf("  %q: %sElementTagNameMap[%q];\n", m[2], kind, m[1]))
	}
	slices.Sort(lines)
	return lines
}

// wired is what is read of the Go files of this package.
type wired struct {
	structs   map[string][]wireField
	bases     map[string]string // what a struct has from others
	texts     map[string]string // types that are texts, as what these may be
	takes     map[string]string // by functions
	gives     map[string]string
	questions map[string]string // by paths
	answers   map[string]string
}

type wireField struct{ name, kind, said string }

func (w *wired) names() []string {
	var out []string
	for name := range w.structs {
		out = append(out, name)
	}
	slices.SortFunc(out, func(a, b string) int {
		return cmp.Or(cmp.Compare(strings.ToLower(a), strings.ToLower(b)), cmp.Compare(a, b))
	})
	return out
}

func readWire(t *testing.T) *wired {
	t.Helper()
	w := &wired{
		structs: map[string][]wireField{}, bases: map[string]string{}, texts: map[string]string{}, takes: map[string]string{}, gives: map[string]string{},
		questions: map[string]string{}, answers: map[string]string{},
	}
	names, err := filepath.Glob("*.go")
	require.NoError(t, err)
	set := token.NewFileSet()
	var files []*ast.File
	for _, name := range names {
		if !strings.HasSuffix(name, "_test.go") {
			f, err := parser.ParseFile(set, name, nil, parser.ParseComments)
			require.NoError(t, err)
			files = append(files, f)
		}
	}
	require.NotEmpty(t, files)
	for _, look := range []func(ast.Node) bool{w.textType, func(n ast.Node) bool { return w.structType(t, n) }, func(n ast.Node) bool { return w.asked(t, n) }, w.route} {
		for _, f := range files {
			ast.Inspect(f, look)
		}
	}
	return w
}

func (w *wired) textType(n ast.Node) bool {
	if s, ok := n.(*ast.TypeSpec); ok {
		if id, ok := s.Type.(*ast.Ident); ok && id.Name == "string" {
			w.texts[s.Name.Name] = "string"
		}
	}
	if s, ok := n.(*ast.ValueSpec); ok && len(s.Values) == 1 {
		id, typed := s.Type.(*ast.Ident)
		lit, written := s.Values[0].(*ast.BasicLit)
		switch {
		case !typed || !written || w.texts[id.Name] == "":
		case w.texts[id.Name] == "string":
			w.texts[id.Name] = lit.Value
		default:
			w.texts[id.Name] += " | " + lit.Value
		}
	}
	return true
}

// structType keeps the fields that have a name on the wire.
func (w *wired) structType(t *testing.T, n ast.Node) bool {
	s, ok := n.(*ast.TypeSpec)
	if !ok {
		return true
	}
	if of, ok := s.Type.(*ast.StructType); ok {
		if fields := w.fields(t, of); len(fields) > 0 {
			w.structs[s.Name.Name] = fields
			for _, f := range of.Fields.List {
				if f.Names == nil {
					w.bases[s.Name.Name] = " extends " + w.kind(t, f.Type)
				}
			}
		}
	}
	return true
}

func (w *wired) fields(t *testing.T, of *ast.StructType) []wireField {
	var out []wireField
	for _, f := range of.Fields.List {
		if f.Tag == nil {
			continue
		}
		tag, err := strconv.Unquote(f.Tag.Value)
		require.NoError(t, err)
		name, options, _ := strings.Cut(reflect.StructTag(tag).Get("json"), ",")
		if name == "" || name == "-" {
			continue
		}
		one := wireField{name: name, kind: w.kind(t, f.Type)}
		if strings.Contains(options, "omit") {
			one.name, one.kind = name+"?", strings.TrimSuffix(one.kind, " | null")
		}
		if f.Comment != nil {
			one.said = " // " + strings.TrimSpace(f.Comment.Text())
		}
		out = append(out, one)
	}
	return out
}

// kind is a type as the checker of the scripts writes it.
func (w *wired) kind(t *testing.T, x ast.Expr) string {
	switch x := x.(type) {
	case *ast.StarExpr:
		return w.kind(t, x.X) + " | null"
	case *ast.ArrayType:
		item := w.kind(t, x.Elt)
		if n, ok := x.Len.(*ast.BasicLit); ok {
			n, err := strconv.Atoi(n.Value)
			require.NoError(t, err)
			return "[" + strings.Join(slices.Repeat([]string{item}, n), ", ") + "]"
		}
		return item + "[]"
	case *ast.MapType:
		return "Record<" + w.kind(t, x.Key) + ", " + w.kind(t, x.Value) + ">"
	case *ast.StructType:
		var parts []string
		for _, f := range w.fields(t, x) {
			parts = append(parts, f.name+": "+f.kind)
		}
		return "{ " + strings.Join(parts, "; ") + " }"
	case *ast.SelectorExpr:
		return x.X.(*ast.Ident).Name + "." + x.Sel.Name
	case *ast.Ident:
		switch x.Name {
		case "string", "any":
			return x.Name
		case "bool":
			return "boolean"
		case "int", "int64", "float64":
			return "number"
		}
		if of := w.texts[x.Name]; of != "" {
			return of
		}
		return x.Name
	}
	var b bytes.Buffer
	_ = ast.Fprint(&b, nil, x, nil)
	require.Fail(t, "the scripts cannot be told of this type", b.String())
	return ""
}

// asked notes which question a function takes, as its last argument or read within, and what
// it gives: as its first result, or replied with within.
func (w *wired) asked(t *testing.T, n ast.Node) bool {
	f, ok := n.(*ast.FuncDecl)
	if !ok || f.Body == nil {
		return true
	}
	list := f.Type.Params.List
	if len(list) > 0 {
		if x := list[len(list)-1].Type; w.isWire(x) {
			w.takes[f.Name.Name] = "Some<" + w.kind(t, x) + ">"
		}
	}
	if r := f.Type.Results; r != nil && len(r.List) == 2 && (w.isWire(r.List[0].Type) || w.isReport(r.List[0].Type)) {
		w.gives[f.Name.Name] = strings.TrimSuffix(w.kind(t, r.List[0].Type), " | null")
	}
	var replied bool
	ast.Inspect(f.Body, func(n ast.Node) bool {
		switch x := n.(type) {
		case *ast.ValueSpec:
			if len(x.Names) == 1 && x.Names[0].Name == "q" && w.isWire(x.Type) {
				w.takes[f.Name.Name] = "Some<" + w.kind(t, x.Type) + ">"
			}
		case *ast.CallExpr:
			id, ok := x.Fun.(*ast.Ident)
			replied = replied || ok && id.Name == "reply"
		}
		return true
	})
	ast.Inspect(f.Body, func(n ast.Node) bool {
		if x, ok := n.(*ast.CompositeLit); ok && replied && w.isWire(x.Type) {
			w.gives[f.Name.Name] = w.kind(t, x.Type)
		}
		return true
	})
	return true
}

// isWire tells whether a type goes over the wire.
func (w *wired) isWire(x ast.Expr) bool {
	switch x := x.(type) {
	case *ast.Ident:
		return w.structs[x.Name] != nil
	case *ast.StarExpr:
		return w.isWire(x.X)
	case *ast.ArrayType:
		return w.isWire(x.Elt)
	case *ast.StructType:
		return true
	}
	return false
}

// isReport tells whether a type is what a command writes with --json.
func (w *wired) isReport(x ast.Expr) bool {
	p, ok := x.(*ast.StarExpr)
	if !ok {
		return false
	}
	of, ok := p.X.(*ast.SelectorExpr)
	return ok && of.Sel.Name == "Document"
}

// route notes which function answers which question.
func (w *wired) route(n ast.Node) bool {
	c, ok := n.(*ast.CallExpr)
	if !ok || len(c.Args) != 2 {
		return true
	}
	lit, ok := c.Args[0].(*ast.BasicLit)
	if !ok || lit.Kind != token.STRING {
		return true
	}
	text, _ := strconv.Unquote(lit.Value)
	path, post := strings.CutPrefix(text, "POST "+apiPath)
	if !post {
		path = strings.TrimPrefix(text, "GET "+apiPath)
	}
	if path == "" || path == text {
		return true
	}
	if post {
		w.questions[path] = "{}"
	}
	ast.Inspect(c.Args[1], func(n ast.Node) bool {
		if s, ok := n.(*ast.SelectorExpr); ok {
			if takes := w.takes[s.Sel.Name]; takes != "" {
				w.questions[path] = takes
			}
			if gives := w.gives[s.Sel.Name]; gives != "" {
				w.answers[path] = gives
			}
		}
		return true
	})
	return true
}

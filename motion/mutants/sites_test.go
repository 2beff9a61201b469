package mutants_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"math/big"
	"strings"
)

// site is one change to a file: the text from from to to becomes with.
type site struct {
	file     string // its path
	line     int
	column   int
	text     string // the line as it is
	from, to int
	was      string
	with     string
}

func (s site) String() string {
	return fmt.Sprintf("%s:%d: %s\n\t%s  becomes  %s", s.file, s.line, s.text, brief(s.was), brief(s.with))
}

func brief(text string) string {
	if text = strings.Join(strings.Fields(text), " "); text == "" {
		return "nothing"
	}
	return text
}

// finder lists the sites of one file.
type finder struct {
	file  string
	src   []byte
	set   *token.FileSet
	kept  map[ast.Stmt]bool // returns that a function cannot do without
	found []site
}

// sites lists every change to a file that is tried, in the order of the file.
func sites(file string, src []byte) ([]site, error) {
	f := finder{file: file, src: src, set: token.NewFileSet(), kept: map[ast.Stmt]bool{}}
	tree, err := parser.ParseFile(f.set, file, src, 0)
	if err != nil {
		return nil, err
	}
	for _, d := range tree.Decls {
		if g, ok := d.(*ast.GenDecl); ok && g.Tok == token.IMPORT {
			continue
		}
		ast.Inspect(d, f.visit)
	}
	return f.found, nil
}

func (f *finder) visit(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.FuncDecl:
		f.ends(n.Type, n.Body)
	case *ast.FuncLit:
		f.ends(n.Type, n.Body)
	case *ast.IfStmt:
		f.negate(n.Cond)
	case *ast.SwitchStmt:
		if n.Tag == nil {
			for _, c := range n.Body.List {
				for _, e := range c.(*ast.CaseClause).List {
					f.negate(e)
				}
			}
		}
	case *ast.ArrayType: // one that is longer is as good
		ast.Inspect(n.Elt, f.visit)
		return false
	case *ast.CallExpr: // the infinity of 2 is that of 1
		if fun, ok := n.Fun.(*ast.SelectorExpr); ok && fun.Sel.Name == "Inf" {
			return false
		}
	case *ast.BinaryExpr:
		if n.Op != token.ADD || !wordy(n) {
			f.swap(n.OpPos, n.Op)
		}
	case *ast.UnaryExpr:
		if n.Op == token.SUB || n.Op == token.NOT {
			f.add(n.OpPos, n.OpPos+1, "")
		}
	case *ast.IncDecStmt:
		f.swap(n.TokPos, n.Tok)
	case *ast.AssignStmt:
		f.swap(n.TokPos, n.Tok)
	case *ast.BasicLit:
		f.literal(n)
	case *ast.Ident:
		f.named(n)
	case *ast.BlockStmt:
		f.leaveOut(n.List)
	case *ast.CaseClause:
		f.leaveOut(n.Body)
	case *ast.CommClause:
		f.leaveOut(n.Body)
	}
	return true
}

// operators are what each operator becomes. Of two that compare, the edge is moved;
// that they are turned round is tried by negating the condition.
var operators = map[token.Token]token.Token{
	token.LSS: token.LEQ, token.LEQ: token.LSS, token.GTR: token.GEQ, token.GEQ: token.GTR,
	token.EQL: token.NEQ, token.NEQ: token.EQL, token.LAND: token.LOR, token.LOR: token.LAND,
	token.ADD: token.SUB, token.SUB: token.ADD, token.MUL: token.QUO, token.QUO: token.MUL, token.REM: token.QUO,
	token.ADD_ASSIGN: token.SUB_ASSIGN, token.SUB_ASSIGN: token.ADD_ASSIGN,
	token.MUL_ASSIGN: token.QUO_ASSIGN, token.QUO_ASSIGN: token.MUL_ASSIGN,
	token.INC: token.DEC, token.DEC: token.INC,
}

// names are what functions and methods become: those of exact numbers are arithmetic
// as much as operators are.
var names = map[string]string{
	"min": "max", "max": "min", "Min": "Max", "Max": "Min", "Floor": "Ceil", "Ceil": "Floor",
	"Add": "Sub", "Sub": "Add", "Mul": "Quo", "Quo": "Mul", "true": "false", "false": "true",
}

func (f *finder) swap(at token.Pos, op token.Token) {
	if other, ok := operators[op]; ok {
		f.add(at, at+token.Pos(len(op.String())), other.String())
	}
}

// negate turns a condition round; one that begins with a not loses it elsewhere.
func (f *finder) negate(cond ast.Expr) {
	if u, ok := cond.(*ast.UnaryExpr); ok && u.Op == token.NOT {
		return
	}
	f.add(cond.Pos(), cond.End(), "!("+f.source(cond.Pos(), cond.End())+")")
}

// named swaps a function or method. A field that is called so does not compile, or
// is another bound, which is worth trying as well.
func (f *finder) named(n *ast.Ident) {
	if other, ok := names[n.Name]; ok {
		f.add(n.Pos(), n.End(), other)
	}
}

// great is from where on a number that is one more is hardly another.
var great = big.NewRat(10, 1)

// literal adds one to a number, or doubles a great one.
func (f *finder) literal(n *ast.BasicLit) {
	if n.Kind != token.INT && n.Kind != token.FLOAT {
		return
	}
	v, ok := new(big.Rat).SetString(strings.ReplaceAll(n.Value, "_", ""))
	if !ok {
		return
	}
	if v.Cmp(great) < 0 {
		v.Add(v, big.NewRat(1, 1))
	} else {
		v.Add(v, v)
	}
	with := v.RatString()
	if n.Kind == token.FLOAT {
		x, _ := v.Float64()
		with = fmt.Sprintf("%g", x)
		if !strings.ContainsAny(with, ".e") {
			with += ".0"
		}
	}
	f.add(n.Pos(), n.End(), with)
}

// ends notes the return that a function with results ends with.
func (f *finder) ends(t *ast.FuncType, body *ast.BlockStmt) {
	if body == nil || t.Results == nil || len(body.List) == 0 {
		return
	}
	f.kept[body.List[len(body.List)-1]] = true
}

// leaveOut leaves out each statement that does something.
func (f *finder) leaveOut(list []ast.Stmt) {
	for _, s := range list {
		if f.kept[s] {
			continue
		}
		switch s := s.(type) {
		case *ast.AssignStmt:
			if s.Tok == token.DEFINE {
				continue
			}
		case *ast.ExprStmt, *ast.IncDecStmt, *ast.ReturnStmt, *ast.BranchStmt, *ast.SendStmt, *ast.DeferStmt:
		default:
			continue
		}
		f.add(s.Pos(), s.End(), "")
	}
}

// wordy tells whether a sum is one of texts.
func wordy(e ast.Expr) bool {
	found := false
	ast.Inspect(e, func(n ast.Node) bool {
		lit, ok := n.(*ast.BasicLit)
		found = found || ok && lit.Kind == token.STRING
		_, call := n.(*ast.CallExpr)
		return !call
	})
	return found
}

func (f *finder) source(from, to token.Pos) string {
	return string(f.src[f.set.Position(from).Offset:f.set.Position(to).Offset])
}

func (f *finder) add(from, to token.Pos, with string) {
	at := f.set.Position(from)
	text := strings.TrimSpace(strings.SplitAfter(string(f.src), "\n")[at.Line-1])
	f.found = append(f.found, site{file: f.file, line: at.Line, column: at.Column, text: text,
		from: at.Offset, to: f.set.Position(to).Offset, was: f.source(from, to), with: with})
}

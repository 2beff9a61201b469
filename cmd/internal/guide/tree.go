package guide

import (
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
)

// markdown reads CommonMark with tables, and names headings so that they can be linked.
func markdown() goldmark.Markdown {
	return goldmark.New(goldmark.WithExtensions(extension.Table), goldmark.WithParserOptions(parser.WithAutoHeadingID()))
}

func parsed(source []byte) ast.Node { return markdown().Parser().Parse(text.NewReader(source)) }

// linked returns the name of the chapter that a link leads to.
func linked(l *ast.Link) string { return strings.TrimSuffix(string(l.Destination), ending) }

// lines returns what stands in a block of code.
func lines(n ast.Node, source []byte) []string {
	return strings.Split(strings.TrimRight(string(n.Lines().Value(source)), "\n"), "\n")
}

// Block is a block of code of a chapter.
type Block struct {
	Language string // "" for what is typed
	Lines    []string
}

// Blocks returns the blocks of code of the chapter, in order.
func (c Chapter) Blocks() (out []Block) {
	source := c.Markdown()
	each(parsed(source), func(n ast.Node) {
		switch n := n.(type) {
		case *ast.CodeBlock:
			out = append(out, Block{Lines: lines(n, source)})
		case *ast.FencedCodeBlock:
			out = append(out, Block{string(n.Language(source)), lines(n, source)})
		}
	})
	return out
}

// each calls f with a node and all below it.
func each(n ast.Node, f func(ast.Node)) {
	_ = ast.Walk(n, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if entering {
			f(n)
		}
		return ast.WalkContinue, nil
	})
}

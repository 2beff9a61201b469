package guide

import (
	"io"

	"github.com/yuin/goldmark/ast"
)

// HTML writes the chapter as what stands inside a page. Links lead to chapters beside it.
// The error is the writer's.
func (c Chapter) HTML(w io.Writer) error {
	m, source := markdown(), c.Markdown()
	tree := parsed(source)
	each(tree, func(n ast.Node) {
		if l, ok := n.(*ast.Link); ok {
			l.Destination = []byte(linked(l))
		}
	})
	return m.Renderer().Render(w, source, tree)
}

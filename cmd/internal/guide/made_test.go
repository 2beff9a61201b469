package guide

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	tables "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/text"
)

var update = flag.Bool("update", false, "make the chapters anew")

// reader reads a chapter: CommonMark with tables.
type reader struct {
	t      *testing.T
	source []byte
}

func (r reader) parts(n ast.Node) (out []part) {
	for at := n.FirstChild(); at != nil; at = at.NextSibling() {
		out = append(out, r.part(at))
	}
	return out
}

func (r reader) part(n ast.Node) part {
	switch n := n.(type) {
	case *ast.Heading:
		return part{Kind: heading, Level: n.Level, Text: r.spans(n, plain)}
	case *ast.CodeBlock:
		return part{Kind: typed, Lines: r.lines(n)}
	case *ast.FencedCodeBlock:
		return part{Kind: fenced, Lines: r.lines(n)}
	case *ast.List:
		p := part{Kind: list, Parts: r.parts(n)}
		if n.IsOrdered() {
			p.First = n.Start
		}
		return p
	case *ast.ListItem:
		require.Equal(r.t, 1, n.ChildCount(), "an item is one paragraph")
		return part{Kind: item, Text: r.spans(n.FirstChild(), plain)}
	case *ast.Blockquote:
		return part{Kind: quote, Parts: r.parts(n)}
	case *ast.Paragraph:
		return part{Kind: paragraph, Text: r.spans(n, plain)}
	case *tables.Table:
		p := part{Kind: table}
		for row := n.FirstChild(); row != nil; row = row.NextSibling() {
			var cells [][]span
			for cell := row.FirstChild(); cell != nil; cell = cell.NextSibling() {
				cells = append(cells, r.spans(cell, plain))
			}
			p.Rows = append(p.Rows, cells)
		}
		return p
	}
	require.Fail(r.t, "no chapter may have that", n.Kind().String())
	return part{}
}

func (r reader) lines(n ast.Node) []string {
	return strings.Split(strings.TrimRight(string(n.Lines().Value(r.source)), "\n"), "\n")
}

func (r reader) spans(n ast.Node, as style) (out []span) {
	for at := n.FirstChild(); at != nil; at = at.NextSibling() {
		switch at := at.(type) {
		case *ast.Text:
			s := span{Text: string(at.Segment.Value(r.source)), As: as}
			if at.SoftLineBreak() {
				s.Text += " "
			}
			out = append(out, s)
		case *ast.CodeSpan:
			out = append(out, r.spans(at, code)...)
		case *ast.Emphasis:
			out = append(out, r.spans(at, strong)...)
		case *ast.Link:
			inner := r.spans(at, as)
			inner[len(inner)-1].To = chapterOf(at)
			out = append(out, inner...)
		default:
			require.Fail(r.t, "no chapter may have that", at.Kind().String())
		}
	}
	return joined(out)
}

// joined makes one span of those that differ in nothing.
func joined(all []span) (out []span) {
	for _, s := range all {
		if n := len(out); n > 0 && out[n-1].As == s.As && out[n-1].To == "" && s.To == "" {
			out[n-1].Text += s.Text
			continue
		}
		out = append(out, s)
	}
	return out
}

// chapterOf is the chapter that a link leads to: in the sources to its file.
func chapterOf(l *ast.Link) string { return strings.TrimSuffix(string(l.Destination), ".md") }

// made is a chapter as the program carries it.
func made(t *testing.T, source []byte) []byte {
	t.Helper()
	m := goldmark.New(goldmark.WithExtensions(extension.Table))
	tree := m.Parser().Parse(text.NewReader(source))
	c := content{Parts: reader{t, source}.parts(tree)}
	require.NotRegexp(t, `\\\\|&[a-z#]`, string(source), "signs stand for themselves")
	require.Equal(t, heading, c.Parts[0].Kind)
	c.Title = c.Parts[0].Text[0].Text
	require.NoError(t, ast.Walk(tree, func(n ast.Node, _ bool) (ast.WalkStatus, error) {
		if l, ok := n.(*ast.Link); ok {
			l.Destination = []byte(chapterOf(l))
		}
		return ast.WalkContinue, nil
	}))
	var html, out bytes.Buffer
	require.NoError(t, m.Renderer().Render(&html, source, tree))
	c.HTML = html.String()
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	require.NoError(t, e.Encode(c))
	return out.Bytes()
}

// What the program carries is what the chapters say; -update makes it anew.
func TestTheChaptersAreMade(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("made", "*.json"))
	require.NoError(t, err)
	if !*update {
		assert.Len(t, files, len(chapters), "no more and no less")
	}
	for _, c := range chapters {
		source, err := os.ReadFile(filepath.Join("chapters", c.Name+".md"))
		require.NoError(t, err)
		want, name := made(t, source), filepath.Join("made", c.Name+".json")
		if *update {
			require.NoError(t, os.WriteFile(name, want, 0o644))
		}
		there, err := os.ReadFile(name)
		require.NoError(t, err)
		require.Equal(t, string(want), string(there), "go test ./cmd/internal/guide -update")
	}
}

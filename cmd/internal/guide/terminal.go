package guide

import (
	"io"
	"strconv"
	"strings"

	"github.com/yuin/goldmark/ast"
	tables "github.com/yuin/goldmark/extension/ast"

	"seamrail/export/textpage"
)

// Widths of a page in a terminal, in characters: what is wider than the first is hard to
// read, and what is narrower than the last is no terminal.
const (
	MostWide  = textpage.Width
	LeastWide = 20
)

// Text writes the chapter for a terminal that is so wide, and says what was wrong with
// the writer.
func (c Chapter) Text(w io.Writer, width int, colour bool) error {
	t := terminal{page: textpage.Page{Colour: colour}, source: c.Markdown(), width: min(max(width, LeastWide), MostWide)}
	for n := parsed(t.source).FirstChild(); n != nil; n = n.NextSibling() {
		t.block(n, indent)
	}
	_, err := t.page.WriteTo(w)
	return err
}

// How far things stand from the left, in characters: what stands under a heading, and
// code in that.
const (
	indent = 2
	deeper = 2
)

// terminal is a chapter that is being laid out.
type terminal struct {
	page   textpage.Page
	source []byte
	width  int
	begun  bool
}

// apart leaves a line between two blocks.
func (t *terminal) apart() {
	if t.begun {
		t.page.Blank()
	}
	t.begun = true
}

// block lays out a block that stands so far from the left.
func (t *terminal) block(n ast.Node, left int) {
	switch n := n.(type) {
	case *ast.Heading:
		t.heading(n)
	case *ast.CodeBlock, *ast.FencedCodeBlock:
		t.apart()
		for _, l := range lines(n, t.source) {
			t.page.Line(textpage.Spaces(left+deeper) + t.page.Paint(codeColour(n), l))
		}
	case *ast.List:
		t.list(n, left)
	case *ast.Blockquote:
		for at := n.FirstChild(); at != nil; at = at.NextSibling() {
			t.apart()
			t.hung("! ", words(runs(at, t.source, textpage.Bold)), left)
		}
	case *tables.Table:
		t.apart()
		t.table(n, left)
	default:
		t.apart()
		t.hung("", words(runs(n, t.source, "")), left)
	}
}

// codeColour is that of a block of code: what is typed stands out from what is seen.
func codeColour(n ast.Node) string {
	if n.Kind() == ast.KindCodeBlock {
		return textpage.Bold
	}
	return ""
}

// heading is flush left, as those of a report are.
func (t *terminal) heading(n *ast.Heading) {
	t.apart()
	text := runs(n, t.source, textpage.Bold)
	if n.Level > 1 {
		for i := range text {
			text[i].text = strings.ToUpper(text[i].text)
		}
	}
	t.hung("", words(text), 0)
}

// hung lays out words behind a mark, every line below the first word.
func (t *terminal) hung(mark string, all []word, left int) {
	for _, l := range folded(all, t.width-left-len(mark)) {
		t.page.Line(textpage.Spaces(left) + mark + l.painted(&t.page))
		mark = textpage.Spaces(len(mark))
	}
}

func (t *terminal) list(n *ast.List, left int) {
	t.apart()
	number := n.Start
	for item := n.FirstChild(); item != nil; item = item.NextSibling() {
		mark := "- "
		if n.IsOrdered() {
			mark = strconv.Itoa(number) + ". "
			number++
		}
		for at := item.FirstChild(); at != nil; at = at.NextSibling() {
			if at.PreviousSibling() != nil {
				t.block(at, left+len(mark))
				continue
			}
			t.hung(mark, words(runs(at, t.source, "")), left)
		}
	}
}

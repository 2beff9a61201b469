package guide

import (
	"strings"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"

	"seamrail/export/textpage"
)

// run is text of one colour.
type run struct{ text, code string }

// word is what is not broken over lines.
type word []run

func (w word) length() (n int) {
	for _, r := range w {
		n += utf8.RuneCountInString(r.text)
	}
	return n
}

// runs returns what stands in a node. Code keeps its marks: where there is no colour,
// nothing else tells it from what is around it.
func runs(n ast.Node, source []byte, code string) (out []run) {
	for at := n.FirstChild(); at != nil; at = at.NextSibling() {
		switch at := at.(type) {
		case *ast.Text:
			out = append(out, run{string(at.Segment.Value(source)), code})
			if at.SoftLineBreak() || at.HardLineBreak() {
				out = append(out, run{" ", code})
			}
		case *ast.CodeSpan:
			out = append(append(out, run{"`", textpage.Cyan}), runs(at, source, textpage.Cyan)...)
			out = append(out, run{"`", textpage.Cyan})
		case *ast.Emphasis:
			out = append(out, runs(at, source, textpage.Bold)...)
		case *ast.Link:
			out = append(out, runs(at, source, code)...)
			out = append(out, run{" (", code}, run{"`seamrail help " + linked(at) + "`", textpage.Cyan}, run{")", code})
		default:
			out = append(out, runs(at, source, code)...)
		}
	}
	return out
}

// words breaks runs at their blanks.
func words(all []run) (out []word) {
	var w word
	for _, r := range all {
		for i, part := range strings.Split(r.text, " ") {
			if i > 0 && len(w) > 0 {
				out, w = append(out, w), nil
			}
			if part != "" {
				w = append(w, run{part, r.code})
			}
		}
	}
	if len(w) > 0 {
		out = append(out, w)
	}
	return out
}

// line is words with a blank between any two.
type line []word

func (l line) length() int {
	n := max(len(l)-1, 0)
	for _, w := range l {
		n += w.length()
	}
	return n
}

// folded breaks words into lines of a width; a word that is longer has one of its own.
func folded(all []word, width int) (out []line) {
	var l line
	for _, w := range all {
		if len(l) > 0 && l.length()+1+w.length() > width {
			out, l = append(out, l), nil
		}
		l = append(l, w)
	}
	return append(out, l)
}

// painted is the line as it is printed: what has one colour is painted at once.
func (l line) painted(p *textpage.Page) string {
	var all []run
	for i, w := range l {
		if i > 0 {
			between := run{" ", w[0].code}
			if all[len(all)-1].code != between.code {
				between.code = ""
			}
			w = append(word{between}, w...)
		}
		all = append(all, w...)
	}
	var b strings.Builder
	for i := 0; i < len(all); {
		text, code := "", all[i].code
		for ; i < len(all) && all[i].code == code; i++ {
			text += all[i].text
		}
		b.WriteString(p.Paint(code, text))
	}
	return b.String()
}

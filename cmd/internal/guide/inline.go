package guide

import (
	"strings"
	"unicode/utf8"
)

// run is text of one colour.
type run struct{ text, colour string }

// word is what is not broken over lines.
type word []run

func (w word) length() (n int) {
	for _, r := range w {
		n += utf8.RuneCountInString(r.text)
	}
	return n
}

// runs returns how spans are printed where the text around them has a colour. Code keeps
// its marks: where there is no colour, nothing else tells it from what is around it.
func runs(all []span, around string) (out []run) {
	for _, s := range all {
		switch s.As {
		case code:
			out = append(out, run{"`" + s.Text + "`", cyan})
		case strong:
			out = append(out, run{s.Text, bold})
		default:
			out = append(out, run{s.Text, around})
		}
		if s.To != "" {
			to := run{"`seamrail help " + s.To + "`", cyan}
			out = append(out, run{" (", around}, to, run{")", around})
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
				w = append(w, run{part, r.colour})
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
func (l line) painted(p *page) string {
	var all []run
	for i, w := range l {
		if i > 0 {
			between := run{" ", w[0].colour}
			if all[len(all)-1].colour != between.colour {
				between.colour = ""
			}
			w = append(word{between}, w...)
		}
		all = append(all, w...)
	}
	var b strings.Builder
	for i := 0; i < len(all); {
		text, colour := "", all[i].colour
		for ; i < len(all) && all[i].colour == colour; i++ {
			text += all[i].text
		}
		b.WriteString(p.paint(colour, text))
	}
	return b.String()
}

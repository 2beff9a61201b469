package sheet

import (
	"strconv"

	"seamrail/plot/internal/style"
)

// block is something on the page, as high as it needs to be at a width.
type block interface {
	height(p *press, w float64) float64
	draw(p *press, x, y, w float64) error
}

// gap is between blocks, in mm.
const gap = 3.0

// headed is a heading of one line with a rule below.
func (p *press) headed(x, y, w float64, name string) float64 {
	s := p.heading()
	p.line(x, y, name, s)
	y += s.pitch()
	p.rule(x, y, x+w, y, 0.25, style.Rule)
	return y + 0.8
}

func (p *press) headHeight() float64 { return p.heading().pitch() + 0.8 }

// nameShare is how much of a group's width its names may take.
const nameShare = 0.52

func (g Group) names(p *press, w float64) float64 {
	widest := 0.0
	for _, r := range g.Rows {
		widest = max(widest, p.width(r.Name, p.muted())+2)
	}
	return min(widest, w*nameShare)
}

// row breaks the two sides of a setting.
func (g Group) row(p *press, r Row, names, w float64) (name, value []string, lines int) {
	name = p.wrap(r.Name, names-1, p.muted())
	value = p.wrap(r.Value, w-names, p.strong())
	return name, value, max(len(name), len(value), 1)
}

func (g Group) height(p *press, w float64) float64 {
	h := p.headHeight()
	names := g.names(p, w)
	for _, r := range g.Rows {
		_, _, n := g.row(p, r, names, w)
		h += p.rowPitch(n)
	}
	return h
}

// rowPitch is the height of a row of so many lines.
func (p *press) rowPitch(lines int) float64 { return p.plain().pitch()*float64(lines) + 0.25 }

func (g Group) draw(p *press, x, y, w float64) error {
	y = p.headed(x, y, w, g.Name)
	names := g.names(p, w)
	for _, r := range g.Rows {
		name, value, n := g.row(p, r, names, w)
		p.lines(x, y, name, p.muted())
		p.lines(x+names, y, value, p.strong())
		if r.Value == "" {
			p.blank(x+names, y, w-names, p.plain())
		}
		y += p.rowPitch(n)
	}
	return nil
}

// paragraph is a text and what stands before it, which may be "".
type paragraph struct{ mark, text string }

// paragraphs are below a heading, which may be "".
type paragraphs struct {
	name  string
	texts []paragraph
}

// plainly are texts with the same before each.
func plainly(name, mark string, texts []string) paragraphs {
	out := paragraphs{name: name}
	for _, t := range texts {
		out.texts = append(out.texts, paragraph{mark, t})
	}
	return out
}

func (b paragraphs) height(p *press, w float64) float64 {
	h := 0.0
	if b.name != "" {
		h = p.headHeight()
	}
	for _, t := range b.texts {
		h += p.plain().pitch() * float64(len(t.lines(p, w)))
	}
	return h
}

// indent is the room for what stands before a text, in ems.
const indent = 1.3

func (t paragraph) indent(p *press) float64 {
	if t.mark == "" {
		return 0
	}
	return p.size * point * indent
}

func (t paragraph) lines(p *press, w float64) []string {
	return p.wrap(t.text, w-t.indent(p), p.plain())
}

func (b paragraphs) draw(p *press, x, y, w float64) error {
	if b.name != "" {
		y = p.headed(x, y, w, b.name)
	}
	for _, t := range b.texts {
		p.line(x, y, t.mark, p.strong())
		y = p.lines(x+t.indent(p), y, t.lines(p, w), p.plain())
	}
	return nil
}

// number tells whether a column of a table holds nothing but numbers, which
// then stand with their ends below each other.
func (t Table) number(col int) bool {
	some := false
	for _, r := range t.Rows {
		if _, err := strconv.ParseFloat(r[col], 64); err == nil {
			some = true
		} else if r[col] != "" && r[col] != "seam" {
			return false
		}
	}
	return some
}

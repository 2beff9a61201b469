package motionplot

import (
	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
)

// captionLine is the height of one line of a seam's caption.
const captionLine = vg.Length(15)

// captionText is what is said of an axis' seam, broken to the room that its
// name leaves.
func (p *page) captionText(i int) (name string, lines []string, indent vg.Length) {
	st := captionStyle(i)
	name = style.Fit(p.d.subject(i).Name, 110, st)
	indent = edge + style.TextWidth(name, st) + 6
	plain := style.Style{Size: style.Small}
	return name, style.Wrap(p.d.subject(i).Seam, width-edge-indent, plain), indent
}

func captionStyle(i int) style.Style {
	return style.Style{Size: style.Large, Bold: true, Color: style.TextHue(i), Align: -1}
}

func (p *page) captionHeight(i int) vg.Length {
	_, lines, _ := p.captionText(i)
	return captionLine * vg.Length(max(1, len(lines)))
}

// caption writes an axis' name and what is said of its seam.
func (p *page) caption(i int) {
	name, lines, indent := p.captionText(i)
	y := p.y - style.Body
	p.sheet.Text(edge, y, name, captionStyle(i))
	for k, line := range lines {
		p.sheet.Text(indent, y-captionLine*vg.Length(k), line,
			style.Style{Size: style.Small, Color: style.Ink, Align: -1})
	}
	p.y -= p.captionHeight(i)
}

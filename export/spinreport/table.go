package spinreport

import (
	"fmt"

	"seamrail/export/spinwords"
	"seamrail/export/textpage"
	"seamrail/motion/exact"
	"seamrail/motion/spin"
)

// loops prints the table, best first, and then the shot's own loop.
func (p *page) loops() {
	a, q := p.d.Answer, p.d.Query
	p.Section(fmt.Sprintf("LOOPS FROM %s TO %s ON SCREEN, BEST FIRST", seconds(q.From), seconds(q.To)))
	columns := p.columns()
	rows := [][]string{nil}
	for _, c := range columns {
		rows[0] = append(rows[0], c.head)
	}
	inks := []string{textpage.Dim}
	add := func(l spin.Loop) {
		for k, s := range l.Seams {
			rows, inks = append(rows, row(columns, l, s, k)), append(inks, ink(s))
		}
	}
	for _, l := range a.Loops {
		add(l)
	}
	own := len(rows)
	if p.d.Own != nil {
		add(*p.d.Own)
	}
	widths, gap := widest(rows), gapOf(widest(rows))
	for i, r := range rows {
		if i == own {
			p.Line(textpage.Spaces(textpage.Indent) + p.Paint(textpage.Dim, "the shot's own loop:"))
		}
		p.row(r, widths, gap, inks[i])
	}
	p.notes()
}

func row(columns []column, l spin.Loop, s spin.Seam, k int) []string {
	out := make([]string, len(columns))
	for i, c := range columns {
		if k == 0 || !c.once {
			out[i] = c.show(l, s)
		}
	}
	return out
}

func widest(rows [][]string) []int {
	out := make([]int, len(rows[0]))
	for _, r := range rows {
		for i, cell := range r {
			out[i] = max(out[i], len([]rune(cell)))
		}
	}
	return out
}

// gapOf is how far apart columns stand: two spaces where the page has the room.
func gapOf(widths []int) int {
	total := textpage.Indent
	for _, w := range widths {
		total += w + 2
	}
	if total-2 > textpage.Width {
		return 1
	}
	return 2
}

func (p *page) row(cells []string, widths []int, gap int, code string) {
	line := textpage.Spaces(textpage.Indent - gap)
	for i, cell := range cells {
		padded := textpage.PadLeft(cell, widths[i]+gap)
		if i == len(cells)-1 || code == textpage.Dim {
			padded = p.Paint(code, padded)
		}
		line += padded
	}
	p.Line(line)
}

// notes says what the table's columns mean, and how many loops there were.
func (p *page) notes() {
	a := p.d.Answer
	text := fmt.Sprintf("%s of whole frames looked at, %d within %s.", spinwords.Counted(a.Considered, "loop"), a.Closing, p.asked())
	text += " Frames are captured frames; deg off is how far past (+) or short (-) of its match the product is, mm the same straight across at its radius, " +
		"f/100 the same in hundredths of a captured frame; ± is one standard uncertainty, from the period's. Maybe: it closes if the speed is as stated and holds."
	for _, l := range textpage.Fold(text, textpage.Width-textpage.Indent) {
		p.Line(textpage.Spaces(textpage.Indent) + p.Paint(textpage.Dim, l))
	}
	for _, c := range p.d.Query.Captures {
		if c.Equal(p.d.Query.Clock.Capture) {
			continue
		}
		p.otherRate(c)
	}
}

// otherRate says what another capture rate does to the picture.
func (p *page) otherRate(capture exact.Rat) {
	once := p.d.Query.Clock.PerScreen().Equal(exact.Int(1))
	if once {
		pace := p.d.Query.Clock.Playback.Quo(capture)
		p.Bullet(textpage.Dim, "-", fmt.Sprintf("at %s every captured frame is shown once too, at a retime of %s", shortRate(capture), pace))
	}
}

package spinreport

import (
	"fmt"
	"slices"

	"seamrail/export/spinwords"
	"seamrail/export/textpage"
	"seamrail/motion/base/exact"
	"seamrail/motion/turntable/spin"
)

// loops prints the table, best first, and then the shot's own loop.
func (p *page) loops() {
	q := p.d.Query
	p.Section(fmt.Sprintf("LOOPS FROM %s TO %s ON SCREEN, BEST FIRST", seconds(q.From), seconds(q.To)))
	columns := p.columns()
	t := p.lay(columns)
	for _, head := range sparable {
		if t.width(1) > textpage.Width {
			columns = slices.DeleteFunc(columns, func(c column) bool { return c.head == head })
			t = p.lay(columns)
		}
	}
	for i, r := range t.rows {
		if i == t.own {
			p.Line(textpage.Spaces(textpage.Indent) + p.Paint(textpage.Dim, "the shot's own loop:"))
		}
		p.row(r, t.widths, t.gap(), t.inks[i])
	}
	p.notes(columns)
}

// sparable are the columns that go, in this order, where there is no room for
// all: they say in other units what another column says.
var sparable = []string{"f/100", "mm", "±px", "±mm", "±deg"}

// table is the text of the loops, the heads first.
type table struct {
	rows   [][]string
	inks   []string
	widths []int
	own    int // row of the shot's own loop; past the end without one
}

func (p *page) lay(columns []column) table {
	t := table{rows: [][]string{nil}, inks: []string{textpage.Dim}}
	for _, c := range columns {
		t.rows[0] = append(t.rows[0], c.head)
	}
	add := func(l spin.Loop) {
		for k, s := range l.Seams {
			t.rows, t.inks = append(t.rows, row(columns, l, s, k)), append(t.inks, ink(s))
		}
	}
	for _, l := range p.d.Answer.Loops {
		add(l)
	}
	t.own = len(t.rows)
	if p.d.Own != nil {
		add(*p.d.Own)
	}
	t.widths = widest(t.rows)
	return t
}

// width is how wide the table is with so many spaces between its columns.
func (t table) width(gap int) int {
	total := textpage.Indent - gap
	for _, w := range t.widths {
		total += w + gap
	}
	return total
}

// gap is how far apart columns stand: two spaces where the page has the room.
func (t table) gap() int {
	if t.width(2) > textpage.Width {
		return 1
	}
	return 2
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
func (p *page) notes(columns []column) {
	has := func(head string) bool {
		return slices.ContainsFunc(columns, func(c column) bool { return c.head == head })
	}
	a := p.d.Answer
	text := fmt.Sprintf("%s of whole frames looked at, %d within %s.", spinwords.Counted(a.Considered, "loop"), a.Closing, p.asked())
	text += " Frames are captured frames; deg off is how far past (+) or short (-) of its match the product is"
	if has("mm") {
		text += ", mm the same straight across at its radius"
	}
	if has("f/100") {
		text += ", f/100 the same in hundredths of a captured frame"
	}
	text += "; ± is one standard uncertainty, from the period's. Maybe: it closes if the speed is as stated and holds."
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

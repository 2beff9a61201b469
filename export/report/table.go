package report

import (
	"slices"
	"strings"

	"seamrail/motion/base/plain"
)

// Table is rows under columns. Its layout is the one of all tables that are printed:
// columns as wide as what is in them, two spaces apart where there is room, and
// what is too long for the last one folded in it.
type Table struct {
	Columns []Column
	Rows    []Row
	Close   bool // columns a space apart, room or not
	Bare    bool // without heads
}

// Column is what stands over a column, and how it stands.
type Column struct {
	Head  string
	Width int  // at least, in characters
	Right bool // numbers are read from the right
	Files bool // its cells name files that lie beside the report
}

// Row is a row of cells, one a column, or a text Across all of them.
type Row struct {
	Cells   []string
	Across  string
	Tone    Tone
	Verdict Tone // of its last cell alone
}

// Text is the table by itself, without tones and as wide as a page: for what is
// no report.
func (t Table) Text() string {
	var b strings.Builder
	for _, l := range t.lines(Width) {
		b.WriteString(l.text + "\n")
	}
	return b.String()
}

// Has tells whether a column stands under a head.
func (t Table) Has(head string) bool { return t.at(head) >= 0 }

func (t Table) at(head string) int {
	return slices.IndexFunc(t.Columns, func(c Column) bool { return c.Head == head })
}

// Shed takes columns out, in this order, as long as a report has no room for all.
func (t *Table) Shed(heads ...string) {
	for _, head := range heads {
		k := t.at(head)
		if k < 0 || t.Fits(Width-indent) {
			continue
		}
		t.Columns = slices.Delete(t.Columns, k, k+1)
		for i, r := range t.Rows {
			if r.Across == "" {
				t.Rows[i].Cells = slices.Delete(r.Cells, k, k+1)
			}
		}
	}
}

// Fits tells whether every row has a line to itself in so many characters.
func (t Table) Fits(room int) bool { return total(t.widths(), 1) <= room }

// line is a line of a table; its last cell begins at a byte.
type line struct {
	text          string
	last          int
	tone, verdict Tone
}

// lines lays the table out, heads first where there are any.
func (t Table) lines(room int) []line {
	widths, gap := t.widths(), 2
	end := len(widths) - 1
	folds := !t.Columns[end].Right
	if t.Close || !folds && total(widths, gap) > room {
		gap = 1
	}
	if folds {
		widths[end] = min(widths[end], room-total(widths[:end], gap)-gap)
	}
	var out []line
	heads := Row{Tone: Dim}
	for _, c := range t.Columns {
		heads.Cells = append(heads.Cells, c.Head)
	}
	for i, r := range append([]Row{heads}, t.Rows...) {
		switch {
		case i == 0 && t.bare():
		case r.Across != "":
			out = append(out, line{text: plain.Text(r.Across), tone: r.Tone})
		default:
			out = append(out, t.row(r, widths, gap)...)
		}
	}
	return out
}

func (t Table) bare() bool {
	return t.Bare || !slices.ContainsFunc(t.Columns, func(c Column) bool { return c.Head != "" })
}

// row is a row in lines: one, unless its last cell is folded.
func (t Table) row(r Row, widths []int, gap int) []line {
	lead, end := "", len(widths)-1
	for i, cell := range r.Cells[:end] {
		lead += pad(plain.Text(cell), widths[i], t.Columns[i].Right) + spaces(gap)
	}
	parts := []string{plain.Text(r.Cells[end])}
	if length(parts[0]) > widths[end] {
		parts = Fold(parts[0], max(widths[end], 1))
	}
	var out []line
	for _, part := range parts {
		text := strings.TrimRight(lead+pad(part, widths[end], t.Columns[end].Right), " ")
		out = append(out, line{text, min(len(lead), len(text)), r.Tone, r.Verdict})
		lead = spaces(length(lead))
	}
	return out
}

// widths are how wide the columns are.
func (t Table) widths() []int {
	out := make([]int, len(t.Columns))
	for i, c := range t.Columns {
		out[i] = c.Width
		if !t.Bare {
			out[i] = max(c.Width, length(c.Head))
		}
		for _, r := range t.Rows {
			if i < len(r.Cells) {
				out[i] = max(out[i], length(r.Cells[i]))
			}
		}
	}
	return out
}

// total is how wide columns are that stand so far apart.
func total(widths []int, gap int) int {
	out := -gap
	for _, w := range widths {
		out += w + gap
	}
	return out
}

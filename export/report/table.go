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

	// Parts says that the columns stand in several tables, each with the first of them,
	// where they have no room beside each other.
	Parts bool
	// Spare are the heads of columns that go, in this order, as long as there is no room
	// for all.
	Spare []string
}

// Column is what stands over a column, and how it stands.
type Column struct {
	Head  string
	Width int    // at least, in characters
	Right bool   // numbers are read from the right
	Files bool   // its cells name files that lie beside the report
	Means string // what its head stands for, which is told below the table
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
func (t Table) Text() string { return t.TextWithin(Width) }

// TextWithin is Text of another width.
func (t Table) TextWithin(columns int) string {
	var b strings.Builder
	for _, l := range t.lines(columns) {
		b.WriteString(l.text + "\n")
	}
	return b.String()
}

// shed is the table without the columns that go where there is so much room.
func (t Table) shed(room int) Table {
	for _, head := range t.Spare {
		k := slices.IndexFunc(t.Columns, func(c Column) bool { return c.Head == head })
		if k < 0 || t.Fits(room) {
			continue
		}
		t.Columns = slices.Delete(slices.Clone(t.Columns), k, k+1)
		t.Rows = Each(t.Rows, func(r Row) Row {
			if r.Across == "" {
				r.Cells = slices.Delete(slices.Clone(r.Cells), k, k+1)
			}
			return r
		})
	}
	return t
}

// legend says what the heads stand for of the columns that there is room for.
func (t Table) legend(room int) string {
	var out []string
	for _, c := range t.shed(room).Columns {
		if c.Means != "" {
			out = append(out, c.Head+": "+c.Means)
		}
	}
	return strings.Join(out, "; ")
}

// Fits tells whether every row has a line to itself in so many characters.
func (t Table) Fits(room int) bool { return total(t.widths(), 1) <= room }

// line is a line of a table; its last cell begins at a byte.
type line struct {
	text          string
	last          int
	tone, verdict Tone
}

// leastLast is how narrow a last column may be that is folded, in characters.
const leastLast = 12

// lines lays the table out, heads first where there are any.
func (t Table) lines(room int) []line {
	t = t.shed(room)
	widths, gap := t.widths(), 2
	end := len(widths) - 1
	folds := !t.Columns[end].Right
	if t.Close || !folds && total(widths, gap) > room {
		gap = 1
	}
	if folds {
		widths[end] = min(widths[end], max(room-total(widths[:end], gap)-gap, leastLast))
		if total(widths, gap) > room && total(widths, 1) <= room {
			gap = 1
		}
	}
	switch {
	case total(widths, gap) <= room:
	case t.Parts && end > 1:
		return t.inParts(room, widths, gap)
	default:
		return t.stacked(room)
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

// inParts lays it out as tables below each other, each as wide as there is room for; of
// two columns, as there must be.
func (t Table) inParts(room int, widths []int, gap int) []line {
	var out []line
	for from := 1; from < len(widths); {
		to := from + 1
		for to < len(widths) && widths[0]+gap+total(widths[from:to+1], gap) <= room {
			to++
		}
		part := t
		part.Columns = append([]Column{t.Columns[0]}, t.Columns[from:to]...)
		part.Rows = Each(t.Rows, func(r Row) Row {
			if r.Across == "" {
				r.Cells = append([]string{r.Cells[0]}, r.Cells[from:to]...)
			}
			return r
		})
		if from > 1 {
			out = append(out, line{})
		}
		out = append(out, part.lines(room)...)
		from = to
	}
	return out
}

// stacked lays it out with a line a cell, behind the head of its column: where columns
// have no room beside each other.
func (t Table) stacked(room int) []line {
	wide := 0
	for _, c := range t.Columns {
		wide = max(wide, length(c.Head)+2)
	}
	if wide > room/2 {
		wide = 2
	}
	var out []line
	add := func(head, text string, tone, verdict Tone) {
		for _, part := range Fold(plain.Text(text), room-wide) {
			lead := pad(head, wide, false)
			out = append(out, line{strings.TrimRight(lead+part, " "), len(lead), tone, verdict})
			head = ""
		}
	}
	for i, r := range t.Rows {
		if i > 0 {
			out = append(out, line{})
		}
		if r.Across != "" {
			for _, part := range Fold(plain.Text(r.Across), room) {
				out = append(out, line{text: part, tone: r.Tone})
			}
			continue
		}
		for k, cell := range r.Cells {
			verdict := Plain
			if k == len(t.Columns)-1 {
				verdict = r.Verdict
			}
			if cell != "" {
				add(t.Columns[k].Head, cell, r.Tone, verdict)
			}
		}
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

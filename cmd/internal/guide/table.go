package guide

import "strings"

// between is how far columns are apart, in characters.
const between = 2

// table lays out a table in columns as wide as they need, or, where that is too much,
// with the widest folded.
func (t *terminal) table(p part, left int) {
	var rows [][][]word
	for i, row := range p.Rows {
		colour := ""
		if i == 0 {
			colour = bold
		}
		var cells [][]word
		for _, cell := range row {
			cells = append(cells, words(runs(cell, colour)))
		}
		rows = append(rows, cells)
	}
	widths := columns(rows, t.width-left)
	for _, cells := range rows {
		t.row(cells, widths, left)
	}
}

// columns returns how wide each column is, so that all of them are no wider than they may
// be, if their longest words allow that.
func columns(rows [][][]word, most int) []int {
	count := len(rows[0])
	widths, least := make([]int, count), make([]int, count)
	sum := between * (count - 1)
	for i := range count {
		for _, cells := range rows {
			widths[i] = max(widths[i], line(cells[i]).length())
			for _, w := range cells[i] {
				least[i] = max(least[i], w.length())
			}
		}
		sum += widths[i]
	}
	for ; sum > most; sum-- {
		widest := -1
		for i := range count {
			if widths[i] > least[i] && (widest < 0 || widths[i] > widths[widest]) {
				widest = i
			}
		}
		if widest < 0 {
			break
		}
		widths[widest]--
	}
	return widths
}

func (t *terminal) row(cells [][]word, widths []int, left int) {
	columns, height := make([][]line, len(cells)), 0
	for i, c := range cells {
		columns[i] = folded(c, widths[i])
		height = max(height, len(columns[i]))
	}
	for y := range height {
		text := spaces(left)
		for i, column := range columns {
			var l line
			if y < len(column) {
				l = column[y]
			}
			text += l.painted(&t.page) + strings.Repeat(" ", widths[i]-l.length()+between)
		}
		t.page.line(text)
	}
}

package sheet

import "seamrail/plot/internal/style"

// cellGap is between two columns, in mm.
const cellGap = 2.0

// blankRoom is how wide a column of blanks is, in mm.
const blankRoom = 18.0

// columns are how wide the columns of a table are in w mm, gaps and all. Where
// they ask for more, the widest give way; where for less, all grow alike.
func (t Table) columns(p *press, w float64) []float64 {
	asked := make([]float64, len(t.Heads))
	sum := 0.0
	for c := range asked {
		asked[c] = t.asks(p, c) + cellGap
		sum += asked[c]
	}
	if sum <= w {
		for c := range asked {
			asked[c] *= w / sum
		}
		return asked
	}
	return capped(asked, w)
}

// capped lowers the widest to one width, so that all together are w.
func capped(asked []float64, w float64) []float64 {
	low, high := 0.0, w
	for range 40 { // halvings: far below a hair's width
		limit := (low + high) / 2
		sum := 0.0
		for _, a := range asked {
			sum += min(a, limit)
		}
		if sum > w {
			high = limit
		} else {
			low = limit
		}
	}
	out := make([]float64, len(asked))
	for c, a := range asked {
		out[c] = min(a, low)
	}
	return out
}

// asks is how wide column c would like to be.
func (t Table) asks(p *press, c int) float64 {
	widest := p.width(t.Heads[c], p.muted())
	for _, r := range t.Rows {
		if r[c] == "" {
			widest = max(widest, blankRoom)
		}
		widest = max(widest, p.width(r[c], p.plain()))
	}
	return widest
}

// broken is a row with its cells broken to the columns, and its greatest number
// of lines.
func broken(p *press, cells []string, columns []float64, s lettering) (out [][]string, most int) {
	most = 1
	for c, text := range cells {
		lines := p.wrap(text, columns[c]-cellGap+1e-6, s) // 1e-6 mm: rounding of its own width
		out, most = append(out, lines), max(most, len(lines))
	}
	return out, most
}

func (t Table) height(p *press, w float64) float64 {
	columns := t.columns(p, w)
	_, n := broken(p, t.Heads, columns, p.muted())
	h := p.headHeight() + p.rowPitch(n)
	for _, r := range t.Rows {
		_, n := broken(p, r, columns, p.plain())
		h += p.rowPitch(n)
	}
	return h + t.notes().height(p, w)
}

func (t Table) notes() paragraphs { return plainly("", "", t.Notes) }

func (t Table) draw(p *press, x, y, w float64) error {
	y = p.headed(x, y, w, t.Name)
	columns := t.columns(p, w)
	y = t.row(p, x, y, t.Heads, columns, p.muted())
	for _, r := range t.Rows {
		p.rule(x, y-0.2, x+w, y-0.2, 0.1, style.Faint)
		y = t.row(p, x, y, r, columns, p.plain())
	}
	return t.notes().draw(p, x, y, w)
}

// row draws one row and returns the y below it.
func (t Table) row(p *press, x, y float64, cells []string, columns []float64, s lettering) float64 {
	out, most := broken(p, cells, columns, s)
	for c, lines := range out {
		for k, text := range lines {
			at := x
			if t.number(c) {
				at += columns[c] - cellGap - p.width(text, s)
			}
			p.line(at, y+float64(k)*s.pitch(), text, s)
		}
		if cells[c] == "" {
			p.blank(x, y, columns[c]-cellGap, s)
		}
		x += columns[c]
	}
	return y + p.rowPitch(most)
}

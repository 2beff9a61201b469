package sheet

// partHigh is how high a part of something long may be, in mm: two go on a page,
// so that not much of one stays empty.
const partHigh = 115.0

// continued follows the name of what began on a page before.
const continued = ", continued"

// parts are a table over the whole width in parts that go on a page each.
func (p *press) parts(t Table) []band {
	var out []band
	columns := t.columns(p, inner)
	for rows := t.Rows; len(rows) > 0; {
		n := fitting(len(rows), func(k int) float64 {
			_, lines := broken(p, rows[k], columns, p.plain())
			return p.rowPitch(lines)
		})
		part := Table{Name: t.Name, Heads: t.Heads, Rows: rows[:n]}
		if len(out) > 0 {
			part.Name += continued
		}
		out, rows = append(out, band{left: []block{part}}), rows[n:]
	}
	return append(p.noted(out, t), p.rest(t)...)
}

// shortNotes is how many notes stand right below a table.
const shortNotes = 6

// noted puts the notes below the last part, where they are few.
func (p *press) noted(bands []band, t Table) []band {
	if n := len(bands); n > 0 && len(t.Notes) <= shortNotes {
		last := bands[n-1].left[0].(Table)
		last.Notes = t.Notes
		bands[n-1].left[0] = last
	}
	return bands
}

// rest are the notes by themselves, where they are many.
func (p *press) rest(t Table) []band {
	if len(t.Rows) == 0 || len(t.Notes) <= shortNotes {
		return nil
	}
	return p.split(plainly("", "", t.Notes))
}

// split is paragraphs in parts that go on a page each.
func (p *press) split(b paragraphs) []band {
	var out []band
	for texts, name := b.texts, b.name; len(texts) > 0; {
		n := fitting(len(texts), func(k int) float64 { return p.plain().pitch() * float64(len(texts[k].lines(p, inner))) })
		out = append(out, band{left: []block{paragraphs{name, texts[:n]}}})
		if texts = texts[n:]; len(out) == 1 && name != "" {
			name += continued
		}
	}
	return out
}

// fitting is how many of the first of so many go into partHigh: one at least.
func fitting(count int, height func(k int) float64) int {
	sum := 0.0
	for k := range count {
		if sum += height(k); sum > partHigh && k > 0 {
			return k
		}
	}
	return count
}

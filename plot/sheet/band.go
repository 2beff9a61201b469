package sheet

import "slices"

// band is a strip across the page: blocks below each other, or in two columns.
type band struct {
	left, right []block
	split       float64 // mm of the left column; 0 is one column
}

// columnGap is between two columns, in mm.
const columnGap = 4.0

func (b band) height(p *press) float64 {
	if b.split == 0 {
		return stacked(p, b.left, inner)
	}
	return max(stacked(p, b.left, b.split), stacked(p, b.right, inner-b.split-columnGap))
}

func stacked(p *press, blocks []block, w float64) float64 {
	h := 0.0
	for k, b := range blocks {
		if k > 0 {
			h += gap
		}
		h += b.height(p, w)
	}
	return h
}

func (b band) draw(p *press, y float64) error {
	if b.split == 0 {
		return stack(p, b.left, margin, y, inner)
	}
	if err := stack(p, b.left, margin, y, b.split); err != nil {
		return err
	}
	return stack(p, b.right, margin+b.split+columnGap, y, inner-b.split-columnGap)
}

func stack(p *press, blocks []block, x, y, w float64) error {
	for _, b := range blocks {
		if err := b.draw(p, x, y, w); err != nil {
			return err
		}
		y += b.height(p, w) + gap
	}
	return nil
}

// mostRows is how many rows a table has beside other things; a longer one goes
// over the whole width, in parts that fit on a page each.
const mostRows = 24

// parts are the blocks of a sheet.
type parts struct {
	groups             []block
	above, curves      block
	stills, cautions   block
	lamps, moves, cues []band // tables, over the whole width
	marks              []band
	takes              block
}

func partsOf(d Page) (parts, error) {
	out := parts{above: newInset(d), stills: stills{d.Stills, plainly("", "", d.StillNotes)},
		cautions: plainly(cautionsName, "!", d.Cautions), takes: takes(d.Takes),
		lamps: wide(d.Lamps), marks: wide(d.Marks), moves: wide(d.Moves), cues: wide(d.Cues)}
	for _, g := range d.Groups {
		out.groups = append(out.groups, g)
	}
	var err error
	out.curves, err = newDrawn(d.Positions)
	return out, err
}

// onePage is everything in two columns below the strip: what is set and ticked
// at the left, what is drawn and timed at the right.
func (s parts) onePage(d Page) []band {
	body := band{split: leftWidth, left: slices.Concat(s.groups, blocksOf(s.marks)), right: []block{s.above}}
	if d.Above != nil {
		body.right = append(body.right, d.key())
	}
	body.right = slices.Concat(body.right, blocksOf(s.lamps), []block{s.curves}, blocksOf(s.moves), blocksOf(s.cues))
	if len(d.Cautions) > 0 {
		body.left = append(body.left, s.cautions)
	}
	if d.Takes > 0 {
		body.left = append(body.left, s.takes)
	}
	return append(s.strip(d), body)
}

// strip is the stills, where there are any.
func (s parts) strip(d Page) []band {
	if len(d.Stills) == 0 {
		return nil
	}
	return []band{{left: []block{s.stills}}}
}

func blocksOf(bands []band) []block {
	var out []block
	for _, b := range bands {
		out = append(out, b.left...)
	}
	return out
}

// pages is everything in bands that go over as many pages as they need.
func (s parts) pages(d Page) []band {
	top := band{split: leftWidth, left: s.groups, right: []block{s.above}}
	if d.Above != nil {
		top.right = append(top.right, d.key())
	}
	out := slices.Concat(s.strip(d), []band{top}, s.lamps, []band{{left: []block{s.curves}}}, s.marks, s.moves, s.cues)
	for rest := d.Cautions; len(rest) > 0; rest = rest[min(mostRows, len(rest)):] {
		out = append(out, band{left: []block{plainly(cautionsName, "!", rest[:min(mostRows, len(rest))])}})
	}
	if d.Takes > 0 {
		out = append(out, band{left: []block{s.takes}})
	}
	return out
}

// leftWidth is the left of two columns, in mm.
const leftWidth = inner - insetWidth - columnGap

// key tells what the letters in the scene stand for.
func (d Page) key() block {
	var out paragraphs
	for _, n := range d.Above.Notes() {
		out.texts = append(out.texts, paragraph{n.Letter, n.Words})
	}
	return out
}

const cautionsName = "Before anything moves"

// wide is a table over the whole width, in parts.
func wide(t Table) []band {
	var out []band
	for rows := t.Rows; len(rows) > 0; {
		part := Table{Name: t.Name, Heads: t.Heads, Rows: rows[:min(mostRows, len(rows))]}
		if rows = rows[len(part.Rows):]; len(rows) == 0 {
			part.Notes = t.Notes
		}
		if len(out) > 0 {
			part.Name += ", continued"
		}
		out = append(out, band{left: []block{part}})
	}
	return out
}

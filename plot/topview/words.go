package topview

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/plot/vg"

	"seamrail/motion/base/unit"
	"seamrail/motion/camera/clearance"
	"seamrail/motion/camera/picture"
	"seamrail/plot/internal/style"
)

const cautions = "Carriage, product and table pinch; a camera on an incline falls when the power goes, so tie it. " +
	"Turn everything through by hand before power moves it, and mind glass. Keep lamps off what burns and liquids away from mains. " +
	"Local codes and licensed trades come before this sheet."

// row is a paragraph of the list, with a letter before it where it has one.
type row struct {
	mark  *mark
	bold  bool
	lines []string
}

// Rows of the list, in points.
const (
	indent vg.Length = 2*discRadius + 5
	rowGap vg.Length = 4
)

// columns puts rows in two columns, one after the other, as even as they go.
func columns(rows []row) [][]row {
	best := [][]row{rows, nil}
	for k := range rows {
		two := [][]row{rows[:k+1], rows[k+1:]}
		if tallest(two) < tallest(best) {
			best = two
		}
	}
	return best
}

func tallest(columns [][]row) vg.Length {
	h := vg.Length(0)
	for _, c := range columns {
		h = max(h, rowsHeight(c))
	}
	return h
}

// Note is what is told of the drawing beside it; the letter, where there is one,
// stands in the drawing too.
type Note struct{ Letter, Words string }

// Notes are what the page that an Inset is set in has to tell.
func (d Data) Notes() []Note {
	var out []Note
	for _, m := range d.marksOf() {
		out = append(out, Note{m.letter, m.words})
	}
	for _, text := range d.told() {
		out = append(out, Note{Words: text})
	}
	return out
}

// told is what has no letter.
func (d Data) told() []string {
	out := append(d.legend(), d.remarks()...)
	if len(d.unnamed) > 0 {
		out = append(out, "Too small to name here: "+strings.Join(d.unnamed, "; ")+".")
	}
	for _, text := range d.Above.Missing {
		out = append(out, "Not drawn: "+text+".")
	}
	return out
}

// rows are what to set out, broken to a width.
func (d Data) rows(width vg.Length) []row {
	var out []row
	add := func(m *mark, text string) {
		room := width
		if m != nil {
			room -= indent
		}
		out = append(out, row{mark: m, lines: wrapped(text, room)})
	}
	out = append(out, row{bold: true, lines: style.Wrap("From the table's axis; before is towards the camera", width, boldStyle)})
	for _, m := range d.marksOf() {
		add(&m, m.words)
	}
	for _, text := range d.told() {
		add(nil, text)
	}
	return out
}

// wrapped breaks a text into lines, but never between a number and its mm.
func wrapped(text string, room vg.Length) []string {
	const tie = "\x1f" // no space, and in no text
	lines := style.Wrap(strings.ReplaceAll(text, " mm", tie+"mm"), room, noteStyle)
	for i := range lines {
		lines[i] = strings.ReplaceAll(lines[i], tie, " ")
	}
	return lines
}

func rowsHeight(rows []row) vg.Length {
	h := vg.Length(0)
	for _, r := range rows {
		h += noteLine*vg.Length(len(r.lines)) + rowGap
	}
	return h
}

func mm(v float64) string { return unit.Format(math.Round(v*10)/10, unit.Length) }

// place tells where something is, as one would measure it from the table's
// axis: before is towards the camera.
func place(v r2.Vec) string {
	var parts []string
	tell := func(v float64, plus, minus string) {
		switch {
		case math.Round(v*10) > 0:
			parts = append(parts, mm(v)+" "+plus)
		case math.Round(v*10) < 0:
			parts = append(parts, mm(-v)+" "+minus)
		}
	}
	tell(v.Y, "behind", "before")
	tell(v.X, "right", "left")
	if len(parts) == 0 {
		return "on it"
	}
	return strings.Join(parts, ", ")
}

// legend tells how the drawing is to be read.
func (d Data) legend() []string {
	text := ""
	d.of(picture.FieldItem, func(picture.Item) { text = "Tinted: what the picture holds" })
	d.of(picture.SharpItem, func(picture.Item) { text = "Tinted: what the picture holds; deeper: what of it is sharp" })
	if text == "" {
		return nil
	}
	if len(d.Above.Lenses) > 1 {
		text += ". Dashed: at B"
	}
	return []string{text + "."}
}

// remarks are what else is told of the scene.
func (d Data) remarks() []string {
	var out []string
	d.of(picture.SweptItem, func(i picture.Item) {
		text := "The product " + i.Label + " across"
		if gap, ok := d.gap(i); ok {
			text += "; the lens" + map[bool]string{true: " at A and B"}[len(d.Above.Lenses) > 1] + off(gap)
		}
		out = append(out, text+".")
	})
	d.of(picture.FaceItem, func(i picture.Item) {
		if len(d.Above.Lenses) > 0 {
			out = append(out, fmt.Sprintf("From A to the near face in frame 0: %s.", mm(r2.Norm(r2.Sub(i.Points[0], flat(d.Above.Lenses[0]))))))
		}
	})
	d.of(picture.DarkItem, func(i picture.Item) {
		out = append(out, "The "+i.Label+": its middle "+place(r2.Scale(0.5, r2.Add(i.Points[0], i.Points[1])))+".")
	})
	return out
}

// off tells how far the lens is off what the product sweeps.
func off(gap float64) string {
	if gap < 0 {
		return " reaches into that by up to " + mm(-gap)
	}
	return " is at least " + mm(gap) + " off"
}

// gap is what is free between the lens at its ends and all that the product
// sweeps, seen from above.
func (d Data) gap(swept picture.Item) (least float64, ok bool) {
	circle := clearance.Disc(swept.Points[0], swept.Radius)
	least = math.Inf(1)
	d.of(picture.LensItem, func(i picture.Item) {
		if len(i.Points) > 2 {
			least, ok = min(least, clearance.Distance(clearance.Outline{Points: i.Points}, circle)), true
		}
	})
	return least, ok
}

// words writes the head, the list, the scale bar and the notes.
func (p *page) words() {
	if !p.d.Inset {
		p.heading()
		width, _ := p.paper.sheet()
		rule := p.area.y1 + gap/2
		p.sheet.Line(edge, rule, width-edge, rule, 0.6, style.Rule)
		p.listing()
	}
	y := edge + noteLine*vg.Length(max(0, len(p.notes)-1))
	muted := noteStyle
	muted.Color = style.Muted
	for k, line := range p.notes {
		p.sheet.Text(edge, y-noteLine*vg.Length(k), line, muted)
	}
	if p.d.Inset {
		p.bar(edge + noteLine/2)
		return
	}
	p.bar(y + noteLine + gap)
}

// heading writes the head as far in as the rest of the sheet.
func (p *page) heading() {
	_, height := p.paper.sheet()
	p.head.DrawAt(p.sheet, edge, height-(edge-style.Edge))
}

func (p *page) listing() {
	n := vg.Length(len(p.columns))
	pitch := (p.list.x1 - p.list.x0 + gap) / n
	for k, rows := range p.columns {
		p.column(p.list.x0+pitch*vg.Length(k), rows)
	}
}

func (p *page) column(left vg.Length, rows []row) {
	y := p.list.y1
	for _, r := range rows {
		x := left
		if r.mark != nil {
			p.disc(vg.Point{X: x + discRadius, Y: y - noteLine/2}, *r.mark)
			x += indent
		}
		st := noteStyle
		if r.bold {
			st = boldStyle
		}
		for _, line := range r.lines {
			y -= noteLine
			p.sheet.Text(x, y+noteLine*0.25, line, st)
		}
		y -= rowGap
	}
}

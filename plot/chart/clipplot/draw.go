package clipplot

import (
	"errors"
	"image/color"
	"io"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
)

// The layout, in points. A strip is wider than the other figures: it is read
// along its length.
const (
	width       vg.Length = 720
	left        vg.Length = 66
	right       vg.Length = 20
	blockHeight vg.Length = 46
	labelRoom   vg.Length = 20
	barHeight   vg.Length = 16
	barGap      vg.Length = 4
	panelHeight vg.Length = 130
	titleRoom   vg.Length = 32
	axisRoom    vg.Length = 38
	row         vg.Length = 16
	gap         vg.Length = 14
)

// Draw draws d and writes it to w as "png", "svg" or "pdf". It returns an error
// for another format, when there is no block or not a cut for each, and when w
// fails.
func Draw(w io.Writer, format string, d Data) error {
	if err := style.CheckFormat(format); err != nil {
		return err
	}
	if len(d.Blocks) == 0 || len(d.Cuts) != len(d.Blocks) || !(d.seconds() > 0) {
		return errors.New("nothing to draw: a strip has a shot, and a cut at the end of each")
	}
	head := style.NewHead(width, d.Title, d.Lines...)
	lists := d.lists()
	s, err := style.NewSheet(format, width, head.Height()+d.height(len(lists)))
	if err != nil {
		return err
	}
	for _, b := range d.Blocks {
		s.Keep(pale(b.Hue))
	}
	y := head.Draw(s)
	y = d.blocks(s, y)
	y = d.bars(s, y)
	for _, p := range d.Panels {
		y = d.panel(s, y, p)
	}
	d.writeLists(s, y, lists)
	_, err = s.WriteTo(w)
	return err
}

func (d Data) height(rows int) vg.Length {
	h := labelRoom + blockHeight + 3*(barHeight+barGap) + gap
	for _, p := range d.Panels {
		h += titleRoom + panelHeight + axisRoom + keyHeight(len(p.Curves))
	}
	return h + row*vg.Length(rows) + gap + style.Edge
}

// ground is the panel that all of the strip hangs on, between two heights.
func (d Data) ground(s *style.Sheet, top, bottom vg.Length) style.Panel {
	return style.Panel{Sheet: s, Left: left, Right: width - right, Top: top, Bottom: bottom, X1: d.seconds(), Y1: 1}
}

// pale is a hue as a ground for text.
func pale(i int) color.NRGBA {
	c := style.Hue(i)
	thin := func(v uint8) uint8 { return uint8(255 - (255-int(v))/5) }
	return color.NRGBA{thin(c.R), thin(c.G), thin(c.B), 255}
}

// blocks draws the shots and, above them, where each begins.
func (d Data) blocks(s *style.Sheet, y vg.Length) vg.Length {
	pan := d.ground(s, y-labelRoom, y-labelRoom-blockHeight)
	free := pan.Left - 1 // a label is left out where the one before is in its way
	for i, b := range d.Blocks {
		x0, x1 := pan.X(b.Start), pan.X(b.End)
		s.Fill(x0, pan.Bottom, x1, pan.Top, pale(b.Hue))
		s.Fill(x0, pan.Bottom, min(x0+3, x1), pan.Top, style.Hue(b.Hue))
		d.name(s, pan, i)
		st := style.Style{Size: style.Small, Color: style.Muted, Align: -1}
		if x0 >= free && x0+style.TextWidth(b.Label, st) <= width {
			s.Text(x0, pan.Top+5, b.Label, st)
			free = x0 + style.TextWidth(b.Label, st) + 6
		}
	}
	return pan.Bottom - barGap
}

// name writes a shot's number, name and frames into its block, as far as there
// is room.
func (d Data) name(s *style.Sheet, pan style.Panel, i int) {
	b := d.Blocks[i]
	x, room := pan.X(b.Start)+7, pan.X(b.End)-pan.X(b.Start)-10
	number := style.Style{Size: style.Body, Bold: true, Color: style.Ink, Align: -1}
	text := style.Number(float64(i + 1))
	if room < style.TextWidth(text, number) {
		return
	}
	s.Text(x, pan.Top-style.Body-3, text, number)
	st := style.Style{Size: style.Small, Color: style.Ink, Align: -1}
	const few = 24 // points: less holds no word
	if room < few {
		return
	}
	s.Text(x, pan.Top-style.Body-style.Small-5, style.Fit(b.Name, room, st), st)
	st.Color = style.Muted
	if frames := style.Number(float64(b.Frames)); style.TextWidth(frames+" frames", st) <= room {
		s.Text(x, pan.Bottom+4, frames+" frames", st)
	} else if style.TextWidth(frames, st) <= room {
		s.Text(x, pan.Bottom+4, frames, st)
	}
}

// bars draw how rig and light stand, and when each is filmed.
func (d Data) bars(s *style.Sheet, y vg.Length) vg.Length {
	for _, bar := range []struct {
		name string
		of   func(Block) int
		text func(int) string
	}{
		{"rig", func(b Block) int { return b.Rig }, letter},
		{"light", func(b Block) int { return b.Light }, func(i int) string { return style.Number(float64(i + 1)) }},
		{"filmed", func(b Block) int { return b.Turn }, ordinal},
	} {
		pan := d.ground(s, y, y-barHeight)
		s.Text(left-8, pan.Bottom+4, bar.name, style.Style{Size: style.Small, Color: style.Muted, Align: 1})
		d.runs(pan, bar.of, bar.text)
		y = pan.Bottom - barGap
	}
	return y - gap
}

// runs draws one bar: blocks in a row that have the same are one.
func (d Data) runs(pan style.Panel, of func(Block) int, text func(int) string) {
	for i := 0; i < len(d.Blocks); {
		n := i + 1
		for n < len(d.Blocks) && of(d.Blocks[n]) == of(d.Blocks[i]) {
			n++
		}
		x0, x1 := pan.X(d.Blocks[i].Start), pan.X(d.Blocks[n-1].End)
		pan.Sheet.Fill(x0, pan.Bottom, max(x1-1, x0), pan.Top, style.Faint)
		st := style.Style{Size: style.Small, Color: style.Ink}
		if t := text(of(d.Blocks[i])); style.TextWidth(t, st)+2 <= x1-x0 {
			pan.Sheet.Text((x0+x1)/2, pan.Bottom+4, t, st)
		}
		i = n
	}
}

// letter numbers ways the rig stands: A to Z, then AA.
func letter(i int) string {
	if i < 26 {
		return string(rune('A' + i))
	}
	return letter(i/26-1) + letter(i%26)
}

// ordinal says when something is filmed.
func ordinal(i int) string {
	switch {
	case i%10 == 1 && i%100 != 11:
		return style.Number(float64(i)) + "st"
	case i%10 == 2 && i%100 != 12:
		return style.Number(float64(i)) + "nd"
	case i%10 == 3 && i%100 != 13:
		return style.Number(float64(i)) + "rd"
	}
	return style.Number(float64(i)) + "th"
}

package motionplot

import (
	"io"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
)

// Draw draws d and writes it to w as "png", "svg" or "pdf". It returns an
// error for another format, for data without axes or without a loop, for a
// picture of which nothing is known, and when w fails.
func Draw(w io.Writer, format string, d Data, opt Options) error {
	f := style.Figure{Frame: frame, Title: d.Title, Lines: []string{d.Subtitle, d.Clock, d.Verdict}}
	switch {
	case opt.Picture && len(d.Strips) == 0:
		f.Lacks = "nothing to draw: nothing is known of the picture"
	case len(d.Axes) == 0 || !(d.Period > 0) || !(d.OnScreen > 0) || d.Captured < 1:
		f.Lacks = "nothing to draw: a figure needs an axis and a loop of at least one frame"
	default:
		rows := opt.rows()
		p := page{d: d, rows: rows, lanes: d.lanes(rows), picture: opt.Picture}
		f.Height, f.Body = p.height(), p.draw
	}
	return f.Write(w, format)
}

func (p *page) draw(s *style.Sheet, y vg.Length) {
	p.sheet, p.y = s, y
	d := p.d
	p.frameScale()
	for i := range d.Axes {
		p.axis(i)
	}
	for k := range d.Stands {
		p.stand(k)
	}
	for k := range p.strips() {
		p.strip(k)
	}
	p.timeScale()
	if !p.picture {
		p.seams()
	}
	st := style.Style{Size: style.Small, Color: style.Muted, Align: -1}
	s.Text(edge, edge, style.Fit(d.Foot, width-2*edge, st), st)
}

// page is a figure being laid out from the top down; y is how far it has come.
type page struct {
	sheet *style.Sheet
	d     Data
	rows  []quantity
	lanes []lane
	y     vg.Length
	// picture: the strips take the place of the seam.
	picture bool
}

// rows are the rates to draw.
func (o Options) rows() []quantity {
	switch {
	case o.Picture:
		return nil
	case o.Jerk:
		return rates
	}
	return rates[:2]
}

// strips are those that are drawn.
func (p *page) strips() []Strip {
	if !p.picture {
		return nil
	}
	return p.d.Strips
}

func (p *page) height() vg.Length {
	h := scaleTop + scaleBelow + p.d.standHeight() + footHeight
	if p.picture {
		h += p.d.stripHeight()
	} else {
		h += p.seamHeight()
	}
	for _, l := range p.lanes {
		h += l.height()
	}
	return h
}

// panel is the next plot area of height h, with its range along time set.
func (p *page) panel(h vg.Length) style.Panel {
	pan := frame.Panel(p.sheet, p.y, h)
	pan.X1 = p.d.OnScreen
	return pan
}

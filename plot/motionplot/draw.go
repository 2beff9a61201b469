package motionplot

import (
	"errors"
	"io"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
)

// Draw draws d and writes it to w as "png", "svg" or "pdf". It returns an
// error for another format, for data without axes or without a loop, for a
// picture of which nothing is known, and when w fails.
func Draw(w io.Writer, format string, d Data, opt Options) error {
	if err := style.CheckFormat(format); err != nil {
		return err
	}
	if opt.Picture && len(d.Strips) == 0 {
		return errors.New("nothing to draw: nothing is known of the picture")
	}
	if len(d.Axes) == 0 || !(d.Period > 0) || !(d.OnScreen > 0) || d.Captured < 1 {
		return errors.New("nothing to draw: a figure needs an axis and a loop of at least one frame")
	}
	rows := opt.rows()
	p := page{d: d, rows: rows, lanes: d.lanes(rows), picture: opt.Picture}
	s, err := style.NewSheet(format, width, p.height())
	if err != nil {
		return err
	}
	p.sheet, p.y = s, s.Height
	p.head()
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
	p.foot()
	_, err = s.WriteTo(w)
	return err
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
	h := p.d.head().Height() + scaleTop + scaleBelow + p.d.standHeight() + footHeight
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

func (p *page) head() {
	p.y = p.d.head().Draw(p.sheet)
}

func (p *page) foot() {
	st := style.Style{Size: style.Small, Color: style.Muted, Align: -1}
	p.sheet.Text(edge, edge, style.Fit(p.d.Foot, width-2*edge, st), st)
}

// panel is the next plot area of height h, with its range along time set.
func (p *page) panel(h vg.Length) style.Panel {
	return style.Panel{
		Sheet: p.sheet, Left: left, Right: width - right, Top: p.y, Bottom: p.y - h,
		X1: p.d.OnScreen,
	}
}

func (d Data) head() style.Head {
	return style.NewHead(width, d.Title, d.Subtitle, d.Clock, d.Verdict)
}

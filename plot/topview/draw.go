package topview

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"seamrail/plot/internal/style"
)

// Options say how to draw.
type Options struct {
	Paper Paper // the zero Paper is A4
	Scale Scale // 0 is the largest that fits
}

// Draw draws d and writes it to w as "png", "svg" or "pdf", all of them the
// size of the paper. A PDF that does not fit at the scale asked is cut into
// sheets to be joined. It returns an error for another format, where nothing
// can be drawn, where the scene does not fit at the scale, and when w fails.
func Draw(w io.Writer, format string, d Data, opt Options) error {
	if opt.Paper == (Paper{}) {
		opt.Paper = Papers[0]
	}
	p, err := composed(format, d, opt)
	if err == nil {
		_, err = p.sheet.WriteTo(w)
		return err
	}
	var cramped *noRoomError
	if !errors.As(err, &cramped) || opt.Scale == 0 || format != "pdf" {
		return err
	}
	var t tiling
	_, d, err = settled(d, func(d Data) (layout, error) {
		var ok bool
		if t, ok = newTiling(d, opt.Paper, opt.Scale); !ok {
			return t.layout, fmt.Errorf("at %s the scene takes more than %d sheets of %s", opt.Scale, maxTiles, opt.Paper.Name)
		}
		return t.layout, nil
	})
	if err != nil {
		return err
	}
	return t.draw(w, d)
}

// composed is the sheet with everything on it.
func composed(format string, d Data, opt Options) (*page, error) {
	if err := style.CheckFormat(format); err != nil {
		return nil, err
	}
	if len(d.Above.Items) == 0 {
		return nil, errors.New("nothing to draw from above: it takes " + strings.Join(d.Above.Missing, "; "))
	}
	l, d, err := settled(d, func(d Data) (layout, error) { return newLayout(d, opt.Paper, opt.Scale) })
	if err != nil {
		return nil, err
	}
	return l.page(format, d)
}

// settled lays out the data with all that the drawing has no room to name, which the
// list then tells: a longer list may leave less room still.
func settled(d Data, lay func(Data) (layout, error)) (layout, Data, error) {
	for {
		l, err := lay(d)
		if err != nil {
			return l, d, err
		}
		dry, err := l.page("svg", d)
		if err != nil {
			return l, d, err
		}
		more := d.listing(dry.unnamed)
		if len(more.unnamed) == len(d.unnamed) {
			return l, d, nil
		}
		d = more
	}
}

// listing is the data with labels that the list tells.
func (d Data) listing(unnamed []string) Data {
	d.unnamed = slices.Clone(d.unnamed)
	for _, text := range unnamed {
		if !slices.Contains(d.unnamed, text) {
			d.unnamed = append(d.unnamed, text)
		}
	}
	return d
}

// page is a sheet with everything on it.
func (l layout) page(format string, d Data) (*page, error) {
	width, height := l.paper.sheet()
	s, err := style.NewSheet(format, width, height)
	if err != nil {
		return nil, err
	}
	p := &page{layout: l, sheet: s, d: d}
	p.compose()
	return p, nil
}

// page is a sheet being drawn, and what has come to lie on it.
type page struct {
	layout
	sheet  *style.Sheet
	d      Data
	taken  []box     // that no label may cover
	lines  []segment // that a label had better not cover
	bodies []segment // outlines of what stands there, which none covers

	unnamed []string  // labels without a place
	spines  []segment // that no dimension may lie along
}

// compose draws everything: what is seen through first, labels last.
func (p *page) compose() {
	for _, hue := range []int{firstHue, secondHue, productHue, lampHue} {
		p.sheet.Keep(style.TextHue(hue))
	}
	p.sheet.Keep(darkInk)
	p.grounds()
	p.things()
	p.marks()
	p.dimensions()
	p.labels()
	p.words()
}

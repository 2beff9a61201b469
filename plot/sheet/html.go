package sheet

import (
	"bytes"
	_ "embed"
	"encoding/base64"
	"fmt"
	"html/template"
	"image"
	"image/png"
	"io"
	"strings"
	"sync"

	"gonum.org/v1/plot/vg"
)

//go:embed sheet.html
var source string

var form = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("sheet").Funcs(template.FuncMap{
		"number": Table.number, "take": takeName, "ticks": func() []string { return ticks },
	}).Parse(source))
})

// drawnPage is a page with its figures drawn for a browser.
type drawnPage struct {
	Page
	AboveName, PositionsName, StillsName, CautionsName, TakesName, FailsName, TapeName, PressesName string

	AboveSVG, PositionsSVG template.HTML
	RingName, RingNote     string
	RingSVG                template.HTML
	Strip                  []drawnStill
	Right                  [2]bool // cautions and takes are in the right column
	Slate                  []string
}

type drawnStill struct {
	Label string
	URL   template.URL
}

// HTML writes the sheet of one shot to w as a page that needs nothing beside
// it, and that prints on A4. It returns an error when w fails.
func HTML(w io.Writer, p Page) error {
	p = p.named()
	d := drawnPage{Page: p, AboveName: aboveName, PositionsName: positionsName, StillsName: stillsName,
		CautionsName: cautionsName, TakesName: takesName, FailsName: failsName, TapeName: tapeName, PressesName: pressesName, Slate: slate, RingSVG: p.Ring.svg()}
	if p.Ring.Length > 0 {
		d.RingName, d.RingNote = ringName, p.Ring.note()
	}
	svg, high, err := p.above()
	if err != nil {
		d.NotAbove = notDrawn(err)
	} else {
		d.AboveSVG = cropped(svg, high)
	}
	panel, err := d.arrange()
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := p.Positions.draw(&b, panel); err != nil {
		return err
	}
	d.PositionsSVG = inline(b.Bytes(), "")
	for _, s := range p.Stills {
		url, err := dataURL(s.Picture)
		if err != nil {
			return err
		}
		d.Strip = append(d.Strip, drawnStill{s.Label, url})
	}
	if err := form().Execute(w, d); err != nil {
		return fmt.Errorf("writing the sheet: %w", err)
	}
	return nil
}

// htmlSize is the size of type of the HTML sheet, in points; sheet.html has it
// too.
const htmlSize = 6.7

// arrange puts cautions and takes where they are on paper, with boxes for as many takes
// as go on a page, and returns how high the curves are for that.
func (d *drawnPage) arrange() (panel vg.Length, err error) {
	parts, err := partsOf(d.Page)
	if err != nil {
		return 0, err
	}
	p := newPress()
	p.size = htmlSize
	for _, how := range sparings {
		one := parts.sparing(how)
		bands, at := one.onePage(p, d.Page)
		if panel, d.Takes, d.Right = plotPanel, int(one.takes), [2]bool{at.cautions, at.takes}; how.low {
			panel = plotLow
		}
		if p.fits(d.Page, bands) {
			break
		}
	}
	return panel, nil
}

// Count makes numbers from 0 up, for a template to go through.
func (p Page) Count() []int {
	out := make([]int, p.Takes)
	for k := range out {
		out[k] = k
	}
	return out
}

func dataURL(img image.Image) (template.URL, error) {
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		return "", err
	}
	return template.URL("data:image/png;base64," + base64.StdEncoding.EncodeToString(b.Bytes())), nil
}

// inline makes a drawing a part of a page: without the head of a file of its
// own, its size in place of what it had. What is written in it has been escaped
// by the library that drew it.
func inline(svg []byte, size string) template.HTML {
	text := string(svg)
	if k := strings.Index(text, "<svg"); k >= 0 {
		text = text[k:]
	}
	if size != "" {
		open, rest, _ := strings.Cut(text, ">")
		_ = open
		text = `<svg xmlns="http://www.w3.org/2000/svg" ` + size + ">" + rest
	}
	return template.HTML(text)
}

// cropped is the scene from above without its paper's margin, true to scale.
func cropped(svg []byte, high float64) template.HTML {
	const mm = 72 / 25.4 // points
	return inline(svg, fmt.Sprintf(`width="%gmm" height="%gmm" viewBox="%.3f %.3f %.3f %.3f"`,
		insetWidth, high, insetCut*mm, insetCut*mm, insetWidth*mm, high*mm))
}

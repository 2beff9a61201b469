package sheet

import (
	"errors"
	"fmt"
	"io"
	"slices"

	"seamrail/plot/internal/style"
)

// The sizes of type, in points, that are tried until a shot fits on one page.
// The least still reads at arm's length; below it the shot takes another page,
// at the usual size.
var sizes = []float64{8, 7.7, 7.4, 7.2, 7, 6.8, 6.6, 6.4}

const usualSize = 7.5

// Write writes the sheets of some shots to w as one PDF, each on a page of its
// own, or on as many as it needs. What the typeface lacks stands on it as codes, and
// it says so. It returns an error without a page, and when w fails.
func Write(w io.Writer, pages []Page) error {
	if len(pages) == 0 {
		return errors.New("no sheet to write: it takes a shot")
	}
	p := newPress()
	p.pdf.SetTitle(style.Written(pages[0].Title), true)
	for _, page := range pages {
		page = page.named()
		if lacks := Lacks(page); lacks != "" {
			page.Facts = append(slices.Clone(page.Facts), lacks)
		}
		if err := p.page(page); err != nil {
			return err
		}
	}
	if err := p.pdf.Output(w); err != nil {
		return fmt.Errorf("writing the sheet: %w", err)
	}
	return nil
}

// page sets the sheet of one shot.
func (p *press) page(d Page) error {
	parts, err := partsOf(d)
	if err != nil {
		return err
	}
	f := folio{press: p, d: d}
	bands := p.choose(d, parts)
	f.next()
	for len(bands) > 0 {
		k := f.turn(bands)
		if err := f.set(bands[k]); err != nil {
			return err
		}
		bands = slices.Delete(bands, k, k+1)
	}
	f.foot()
	return p.pdf.Error()
}

// fits tells whether some bands go on one page.
func (p *press) fits(d Page, bands []band) bool {
	sum := p.headEnd(d)
	for _, b := range bands {
		sum += b.height(p) + gap
	}
	return sum-gap <= bottom
}

// choose finds the size of type at which all goes on one page, with this and that made
// smaller if it must be, or lays it out on several.
func (p *press) choose(d Page, all parts) []band {
	for _, how := range sparings {
		for _, p.size = range sizes {
			if bands, _ := all.sparing(how).onePage(p, d); p.fits(d, bands) {
				return bands
			}
		}
	}
	p.size = usualSize
	return all.pages(d)
}

// bottom is where the room of a page ends, above its foot; in mm.
const bottom = paperHeight - margin - 3

// folio is a shot's sheet on its way down the pages.
type folio struct {
	*press
	d    Page
	y    float64
	page int
}

// next begins a page.
func (f *folio) next() {
	if f.page > 0 {
		f.foot()
	}
	f.page++
	f.pdf.AddPage()
	f.head()
	f.y = f.headEnd(f.d)
}

// turn is which band comes now: the next, or where it begins another page the first
// that may fill what is left of this one.
func (f *folio) turn(bands []band) int {
	if !f.over(bands[0]) {
		return 0
	}
	k := slices.IndexFunc(bands, func(b band) bool { return b.anywhere && !f.over(b) })
	return max(k, 0)
}

// over tells whether a band does not go on this page.
func (f *folio) over(b band) bool {
	return f.y+f.fitted(b).height(f.press) > bottom && f.y > f.headEnd(f.d)
}

// fitted is a band with its curves as large as they go here.
func (f *folio) fitted(b band) band {
	if d, ok := b.left[0].(drawn); ok && b.split == 0 {
		b.left = []block{d.within(f.press, bottom-f.y)}
	}
	return b
}

// set puts a band below what there is, or on the next page.
func (f *folio) set(b band) error {
	if f.over(b) {
		f.next()
	}
	b = f.fitted(b)
	h := b.height(f.press)
	err := b.draw(f.press, f.y)
	f.y += h + gap
	return err
}

// titleSize is how large a title is set, in points.
const titleSize = 15.0

func (p *press) title() lettering { return lettering{titleSize, true, style.Ink} }

// slate is what is filled in at the top of a page, at the right.
var slate = []string{"date", "by", "card"}

const slateWide = 40.0 // mm

func (p *press) titleLines(d Page) []string {
	lines := p.wrap(d.Title, inner-slateWide-6, p.title())
	if len(lines) > 2 {
		return []string{lines[0], lines[1] + " ..."}
	}
	return lines
}

func (p *press) facts(d Page) []string {
	var out []string
	for _, f := range d.Facts {
		out = append(out, p.wrap(f, inner-slateWide-6, p.muted())...)
	}
	return out
}

// headEnd is the y below the head.
func (p *press) headEnd(d Page) float64 {
	words := float64(len(p.titleLines(d)))*p.title().pitch() + float64(len(p.facts(d)))*p.muted().pitch()
	return margin + max(words, float64(len(slate))*slatePitch) + gap
}

const slatePitch = 5.2 // mm: room to write

func (f *folio) head() {
	end := f.lines(margin, margin, f.titleLines(f.d), f.title())
	left := paperWidth - margin - slateWide
	for k, name := range slate {
		y := margin + float64(k)*slatePitch
		f.line(left, y+0.8, name, f.muted())
		f.blank(left+9, y+0.8, slateWide-9, f.plain())
	}
	f.lines(margin, end, f.facts(f.d), f.muted())
}

func (f *folio) foot() {
	text := f.d.Foot
	if f.page > 1 {
		text = fmt.Sprintf("Page %d. %s", f.page, text)
	}
	s := lettering{6.5, false, style.Muted}
	f.lines(margin, paperHeight-margin-s.pitch(), f.wrap(text, inner, s), s)
}

func takeName(k int) string { return fmt.Sprint(k + 1) }

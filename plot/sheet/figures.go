package sheet

import (
	"bytes"
	"errors"

	"seamrail/plot/internal/look"
	"seamrail/plot/planview"
)

// The scene from above is drawn on paper as wide as its column and the paper's
// own margin, which is then cut off, so that its scale is true on the page.
const (
	insetWidth = 128.0 // mm that are seen
	insetCut   = 9.0   // mm that are cut off all round
)

// How high the scene from above may be, in mm, and in what steps less is tried:
// it is as low as it can be at the scale that the most room allows.
const (
	insetMost  = 96.0
	insetLeast = 48.0
	insetStep  = 4.0
)

func insetPaper(high float64) planview.Paper {
	return planview.Paper{Name: "the sheet", Width: insetWidth + 2*insetCut, Height: high + 2*insetCut}
}

// above draws the scene from above as SVG and returns how high it is, in mm.
func (p Page) above() ([]byte, float64, error) {
	if p.Above == nil {
		return nil, 0, errors.New(p.NotAbove)
	}
	d := *p.Above
	d.Inset = true
	best, err := planview.Largest(d, insetPaper(insetMost))
	if err != nil {
		return nil, 0, err
	}
	high := insetMost
	for high-insetStep >= insetLeast {
		if s, err := planview.Largest(d, insetPaper(high-insetStep)); err != nil || s < best {
			break
		}
		high -= insetStep
	}
	var b bytes.Buffer
	err = planview.Draw(&b, "svg", d, planview.Options{Paper: insetPaper(high)})
	return b.Bytes(), high, err
}

// inset is the scene from above on the page.
type inset struct {
	svg  []byte
	high float64
}

// newInset returns a block with the scene from above, or with why there is none.
func newInset(p Page) block {
	svg, high, err := p.above()
	if err != nil {
		return sketch{plainly(aboveName, "", []string{notDrawn(err)})}
	}
	return inset{svg, high}
}

const aboveName = "From above"

func notDrawn(err error) string {
	return "Not drawn: " + err.Error() + ". Sketch it here, with distances; a square is 5 mm."
}

// sketch is room to draw the scene by hand, with a hairline every sketchGrid mm.
type sketch struct{ paragraphs }

const (
	sketchHigh = 70.0
	sketchGrid = 5.0
)

func (s sketch) height(p *press, w float64) float64 {
	return s.paragraphs.height(p, w) + 1 + sketchHigh
}

func (s sketch) draw(p *press, x, y, w float64) error {
	if err := s.paragraphs.draw(p, x, y, w); err != nil {
		return err
	}
	y += s.paragraphs.height(p, w) + 1
	for at := 0.0; at <= sketchHigh; at += sketchGrid {
		p.rule(x, y+at, x+w, y+at, 0.1, look.Faint)
	}
	for at := 0.0; at <= w; at += sketchGrid {
		p.rule(x+at, y, x+at, y+sketchHigh, 0.1, look.Faint)
	}
	return nil
}

func (i inset) height(p *press, _ float64) float64 { return p.headHeight() + i.high }

func (i inset) draw(p *press, x, y, w float64) error {
	y = p.headed(x, y, w, aboveName)
	p.pdf.ClipRect(x, y, insetWidth, i.high, false)
	defer p.pdf.ClipEnd()
	return p.trace(i.svg, x-insetCut, y-insetCut, point)
}

// drawn is the positions on the page.
type drawn struct {
	svg   []byte
	shape float64 // height over width
}

func newDrawn(p Positions) (block, error) {
	var b bytes.Buffer
	err := p.draw(&b)
	return drawn{b.Bytes(), float64(p.height() / plotWidth)}, err
}

const positionsName = "Positions over the loop"

// curvesHigh is how high the curves of many axes may be, in mm; they are then set
// smaller.
const curvesHigh = 200.0

func (d drawn) size(w float64) (width, height float64) {
	width = min(w, curvesHigh/d.shape)
	return width, width * d.shape
}

func (d drawn) height(p *press, w float64) float64 {
	_, high := d.size(w)
	return p.headHeight() + high
}

func (d drawn) draw(p *press, x, y, w float64) error {
	y = p.headed(x, y, w, positionsName)
	wide, _ := d.size(w)
	return p.trace(d.svg, x, y, wide/float64(plotWidth))
}

// stills is a strip of what the lens sees.
type stills struct {
	strip []Still
	notes paragraphs
}

const stillsName = "What the lens sees"

// stillGap is between two stills, in mm.
const stillGap = 1.5

func (s stills) size(w float64) (width, height float64) {
	n := float64(len(s.strip))
	width = (w - stillGap*(n-1)) / n
	for _, one := range s.strip {
		b := one.Picture.Bounds()
		height = max(height, width*float64(b.Dy())/float64(b.Dx()))
	}
	return width, min(height, width*1.4) // an upright picture is narrower instead
}

func (s stills) height(p *press, w float64) float64 {
	_, h := s.size(w)
	return p.headHeight() + h + p.muted().pitch() + 0.6 + s.notes.height(p, w)
}

func (s stills) draw(p *press, x, y, w float64) error {
	left := x
	y = p.headed(x, y, w, stillsName)
	width, height := s.size(w)
	for _, one := range s.strip {
		b := one.Picture.Bounds()
		wide := min(width, height*float64(b.Dx())/float64(b.Dy()))
		if err := p.picture(x+(width-wide)/2, y, wide, wide*float64(b.Dy())/float64(b.Dx()), one.Picture); err != nil {
			return err
		}
		p.line(x, y+height+0.6, one.Label, p.muted())
		x += width + stillGap
	}
	return s.notes.draw(p, left, y+height+0.6+p.muted().pitch(), w)
}

// takes are the boxes to tick.
type takes int

// ticks are what is ticked of a take.
var ticks = []string{"ran", "sharp", "keep"}

const (
	takesName = "Takes"
	takeWide  = 46.0 // mm, at least
	takeHigh  = 4.6  // mm: room to write
)

// abreast is how many lie side by side.
func (t takes) abreast(w float64) int { return max(1, int(w/takeWide)) }

func (t takes) height(p *press, w float64) float64 {
	n := t.abreast(w)
	return p.headHeight() + takeHigh*float64((int(t)+n-1)/n)
}

func (t takes) draw(p *press, x, y, w float64) error {
	y = p.headed(x, y, w, takesName) + 0.5
	n := t.abreast(w)
	each := (w + cellGap) / float64(n)
	for k := range int(t) {
		t.one(p, x+each*float64(k%n), y+takeHigh*float64(k/n), each-cellGap, k)
	}
	return nil
}

// one is a take: its number, what is ticked, and a line for a note.
func (t takes) one(p *press, x, y, w float64, k int) {
	end := x + w
	p.line(x, y, takeName(k), p.strong())
	x += p.width(takeName(int(t)-1), p.strong()) + 1.5
	side := p.size * point * 0.9
	for _, name := range ticks {
		p.box(x, y+0.25, side, side, 0.25, look.Ink)
		p.line(x+side+0.7, y, name, p.plain())
		x += side + 0.7 + p.width(name, p.plain()) + 1.8
	}
	p.blank(x, y, end-x, p.plain())
}

package sheet

import (
	"bytes"
	"errors"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
	"seamrail/plot/topview"
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

func insetPaper(high float64) topview.Paper {
	return topview.Paper{Name: "the sheet", Width: insetWidth + 2*insetCut, Height: high + 2*insetCut}
}

// named is the page with what the scene from above has no room to name, which is
// told beside it.
func (p Page) named() Page {
	high, err := p.insetHigh()
	if err != nil {
		return p
	}
	if d, err := p.inset().Named(topview.Options{Paper: insetPaper(high)}); err == nil {
		p.Above = &d
	}
	return p
}

// inset is the scene from above as it is set in the page.
func (p Page) inset() topview.Data {
	d := *p.Above
	d.Inset = true
	return d
}

// above draws the scene from above as SVG and returns how high it is, in mm.
func (p Page) above() ([]byte, float64, error) {
	high, err := p.insetHigh()
	if err != nil {
		return nil, 0, err
	}
	var b bytes.Buffer
	err = topview.Draw(&b, "svg", p.inset(), topview.Options{Paper: insetPaper(high)})
	return b.Bytes(), high, err
}

// insetHigh is how high the scene from above is, in mm.
func (p Page) insetHigh() (float64, error) {
	if p.Above == nil {
		return 0, errors.New(p.NotAbove)
	}
	d := p.inset()
	best, err := topview.Largest(d, insetPaper(insetMost))
	if err != nil {
		return 0, err
	}
	high := insetMost
	for high-insetStep >= insetLeast {
		if s, err := topview.Largest(d, insetPaper(high-insetStep)); err != nil || s < best {
			break
		}
		high -= insetStep
	}
	return high, nil
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
		p.rule(x, y+at, x+w, y+at, 0.1, style.Faint)
	}
	for at := 0.0; at <= w; at += sketchGrid {
		p.rule(x+at, y, x+at, y+sketchHigh, 0.1, style.Faint)
	}
	return nil
}

func (i inset) height(p *press, _ float64) float64 { return p.headHeight() + i.high }

func (i inset) draw(p *press, x, y, w float64) error {
	y = p.headed(x, y, w, aboveName)
	return p.clipped(x, y, insetWidth, i.high, func() error { return p.trace(i.svg, x-insetCut, y-insetCut, point) })
}

// drawn is the positions on the page.
type drawn struct {
	svg   []byte
	shape float64 // height over width
	most  float64 // how high the curves may be, in mm
}

func newDrawn(p Positions, panel vg.Length) (block, error) {
	var b bytes.Buffer
	err := p.draw(&b, panel)
	return drawn{b.Bytes(), float64(p.height(panel) / plotWidth), curvesHigh}, err
}

const positionsName = "Positions over the loop"

// curvesHigh is how high the curves of many axes may be, in mm; they are then set
// smaller.
const curvesHigh = 200.0

// curvesLow is how high curves are that take what is left of a page, at least, in mm,
// and curvesPart how high they are at most where there are several pages: with a
// table below them the page is full.
const (
	curvesLow  = 55.0
	curvesPart = partHigh - 15
)

// within is the curves as they go into so much room, or on a page of their own.
func (d drawn) within(p *press, room float64) drawn {
	d.most = curvesPart
	if left := room - p.headHeight(); left >= curvesLow {
		d.most = min(d.most, left)
	}
	return d
}

func (d drawn) size(w float64) (width, height float64) {
	width = min(w, d.most/d.shape)
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

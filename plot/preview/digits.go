package preview

import (
	"strconv"

	xfont "golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"gonum.org/v1/gonum/spatial/r2"

	"seamrail/plot/internal/style"
)

// em is the grid that outlines are read on: finer than any pixel they come to.
const em = 1000

// bends is in how many straight pieces a bend of a letter is drawn.
const bends = 4

// digits returns the outlines of a number, one high, about its middle.
func digits(n int) [][]r2.Vec {
	w := writer{face: style.Face(1, true).Face}
	for _, r := range strconv.Itoa(n) {
		w.letter(r)
	}
	return w.centred()
}

// writer sets letters side by side, in ems, y up.
type writer struct {
	face     *sfnt.Font
	buf      sfnt.Buffer
	x        float64
	contours [][]r2.Vec
}

func (w *writer) letter(r rune) {
	glyph, err := w.face.GlyphIndex(&w.buf, r)
	if err != nil {
		return
	}
	segments, err := w.face.LoadGlyph(&w.buf, glyph, fixed.I(em), nil)
	if err != nil {
		return
	}
	for _, s := range segments {
		w.segment(s)
	}
	if advance, err := w.face.GlyphAdvance(&w.buf, glyph, fixed.I(em), xfont.HintingNone); err == nil {
		w.x += float64(advance) / 64 / em
	}
}

func (w *writer) at(p fixed.Point26_6) r2.Vec {
	return r2.Vec{X: w.x + float64(p.X)/64/em, Y: -float64(p.Y) / 64 / em}
}

// segment draws one piece of an outline. Those of the typeface bend by second
// order only.
func (w *writer) segment(s sfnt.Segment) {
	if s.Op == sfnt.SegmentOpMoveTo {
		w.contours = append(w.contours, []r2.Vec{w.at(s.Args[0])})
		return
	}
	last := &w.contours[len(w.contours)-1]
	if s.Op == sfnt.SegmentOpLineTo {
		*last = append(*last, w.at(s.Args[0]))
		return
	}
	a, b, c := (*last)[len(*last)-1], w.at(s.Args[0]), w.at(s.Args[1])
	for i := 1; i <= bends; i++ {
		t := float64(i) / bends
		*last = append(*last, r2.Add(r2.Scale((1-t)*(1-t), a), r2.Add(r2.Scale(2*t*(1-t), b), r2.Scale(t*t, c))))
	}
}

// centred moves the outlines about 0 and makes them one high.
func (w *writer) centred() [][]r2.Vec {
	if len(w.contours) == 0 {
		return nil
	}
	box := r2.Box{Min: w.contours[0][0], Max: w.contours[0][0]}
	for _, c := range w.contours {
		for _, p := range c {
			box.Min.X, box.Min.Y = min(box.Min.X, p.X), min(box.Min.Y, p.Y)
			box.Max.X, box.Max.Y = max(box.Max.X, p.X), max(box.Max.Y, p.Y)
		}
	}
	middle, high := r2.Scale(0.5, r2.Add(box.Min, box.Max)), box.Max.Y-box.Min.Y
	for _, c := range w.contours {
		for i := range c {
			c[i] = r2.Scale(1/high, r2.Sub(c[i], middle))
		}
	}
	return w.contours
}

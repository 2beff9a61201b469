package apng

import (
	"image"

	"seamrail/cmd/internal/film/luma"
)

// canvas is what is seen: luma, weighted by how opaque it is. Since luma is a sum of the
// channels, laying luma on luma is what laying the channels would be, and since all lies on
// black, how opaque the canvas itself is makes no difference.
type canvas struct {
	width, height int
	pix           []float32
	now           control // of the picture that was laid last
	started       bool
	under         []float32 // what lay where it is, where that is put back
	row, alpha    []float32
}

func newCanvas(width, height int) canvas {
	return canvas{width: width, height: height, pix: make([]float32, width*height),
		row: make([]float32, width), alpha: make([]float32, width)}
}

// place is row y of where a picture is, counted from its top.
func (c *canvas) place(at control, y int) []float32 {
	from := (at.y+y)*c.width + at.x
	return c.pix[from : from+at.width]
}

// begin takes the picture before away as it asks, and keeps what the next will cover.
func (c *canvas) begin(next control) {
	if c.started {
		c.dispose()
	}
	if !c.started && next.dispose == disposePrevious { // there is none before the first (11.3.6.2)
		next.dispose = disposeBackground
	}
	c.now, c.started = next, true
	if next.dispose != disposePrevious {
		return
	}
	c.under = c.under[:0]
	for y := range next.height {
		c.under = append(c.under, c.place(next, y)...)
	}
}

func (c *canvas) dispose() {
	for y := range c.now.height {
		row := c.place(c.now, y)
		switch c.now.dispose {
		case disposeBackground:
			clear(row)
		case disposePrevious:
			copy(row, c.under[y*c.now.width:])
		}
	}
}

// lay lays a picture of the size of now on the canvas.
func (c *canvas) lay(img image.Image) {
	row, alpha := c.row[:c.now.width], c.alpha[:c.now.width]
	over := c.now.blend == blendOver && !luma.Opaque(img)
	for y := range c.now.height {
		luma.Row(img, y, row)
		if over {
			luma.Alpha(img, y, alpha)
			for x, below := range c.place(c.now, y) {
				row[x] += below * (1 - alpha[x])
			}
		}
		copy(c.place(c.now, y), row)
	}
}

func (c *canvas) rows(row func(y int, row []float32)) {
	for y := range c.height {
		row(y, c.pix[y*c.width:(y+1)*c.width])
	}
}

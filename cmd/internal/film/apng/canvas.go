package apng

import (
	"image"

	"seamrail/cmd/internal/film/luma"
)

// canvas is what is seen: luma, or each of the three channels, weighted by how opaque it is. Since
// luma is a sum of the channels, laying luma on luma is what laying the channels would be, and
// since all lies on black, how opaque the canvas itself is makes no difference.
type canvas struct {
	width, height int
	planes        []plane // luma alone, or red, green and blue
	now           control // of the picture that was laid last
	started       bool
	rows          [][]float32 // one of each plane
	alpha         []float32
}

type plane struct {
	pix   []float32
	under []float32 // what lay where the picture is, where that is put back
}

func newCanvas(width, height, planes int) canvas {
	c := canvas{width: width, height: height, alpha: make([]float32, width)}
	for range planes {
		c.planes = append(c.planes, plane{pix: make([]float32, width*height)})
		c.rows = append(c.rows, make([]float32, width))
	}
	return c
}

// place is row y of where a picture is, counted from its top.
func (c *canvas) place(p plane, at control, y int) []float32 {
	from := (at.y+y)*c.width + at.x
	return p.pix[from : from+at.width]
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
	for n := range c.planes {
		p := &c.planes[n]
		p.under = p.under[:0]
		for y := range next.height {
			p.under = append(p.under, c.place(*p, next, y)...)
		}
	}
}

func (c *canvas) dispose() {
	for _, p := range c.planes {
		for y := range c.now.height {
			row := c.place(p, c.now, y)
			switch c.now.dispose {
			case disposeBackground:
				clear(row)
			case disposePrevious:
				copy(row, p.under[y*c.now.width:])
			}
		}
	}
}

// lay lays a picture of the size of now on the canvas.
func (c *canvas) lay(img image.Image) {
	alpha := c.alpha[:c.now.width]
	over := c.now.blend == blendOver && !luma.Opaque(img)
	row := c.rowsOf(img)
	for y := range c.now.height {
		row(y)
		if over {
			luma.Alpha(img, y, alpha)
		}
		for n, p := range c.planes {
			row, below := c.rows[n][:c.now.width], c.place(p, c.now, y)
			for x := range row {
				if over {
					row[x] += below[x] * (1 - alpha[x])
				}
			}
			copy(below, row)
		}
	}
}

// rowsOf puts a row of a picture into those of the canvas.
func (c *canvas) rowsOf(img image.Image) func(y int) {
	if len(c.planes) == 1 {
		return func(y int) { luma.Row(img, y, c.rows[0][:c.now.width]) }
	}
	plain := luma.Plain(img)
	return func(y int) {
		luma.Channels(plain, y, [3][]float32{c.rows[0][:c.now.width], c.rows[1][:c.now.width], c.rows[2][:c.now.width]})
	}
}

func (c *canvas) handOut(row func(plane, y int, row []float32)) {
	for n, p := range c.planes {
		for y := range c.height {
			row(n, y, p.pix[y*c.width:(y+1)*c.width])
		}
	}
}

// Package alike tells which frames of a recording are alike, and so which loops it holds.
//
// Of each frame a sketch is kept: its picture as some 1300 cells. All that is said of a pair
// of frames is said of their sketches. The best loop is looked for over every pair whose
// distance suits; what is left out has been proven not to be among the best.
package alike

import (
	"fmt"
	"math"

	"seamrail/motion/footage"
)

const (
	// MaxCells is how many cells a sketch has at most: 48 x 27 of a picture of 16:9. A cell
	// is then a fortieth of the picture wide, which is as fine as a seam is looked at, and
	// 15 000 sketches with their coarse levels take 89 MB.
	MaxCells = 1296
	// MaxFrames is how many frames are taken: ten minutes at 100 frames a second, 360 MB.
	MaxFrames = 60_000
	// slab is how many sketches are kept in one piece, so that a growing recording is never
	// copied.
	slab = 256
)

// Sketches are what is kept of the frames of a recording, in order.
type Sketches struct {
	Width, Height int       // cells
	Means         []float64 // of each sketch, as encoded, 0 to 1
	levels        []plane   // coarsest first; the last are the sketches themselves
}

// Len is how many there are.
func (s *Sketches) Len() int { return len(s.Means) }

// At are the cells of sketch k, row by row, each the mean of its pixels; not to be changed.
func (s *Sketches) At(k int) []float32 { return s.finest().at(k) }

func (s *Sketches) finest() plane { return s.levels[len(s.levels)-1] }

// Collector makes sketches of frames as they come. The zero value is ready.
type Collector struct {
	kept          Sketches
	width, height int // of the frames
	boxes         []boxes
	cells         []float64
}

// Add takes the next frame. Pixels below 0 and above 1 count as those. It fails if the frame
// has no pixels or others than its Width and Height tell, if its size is not that of the first,
// if a pixel is no number, or after MaxFrames frames.
func (c *Collector) Add(g footage.Gray) error {
	if err := c.check(g); err != nil {
		return err
	}
	if c.boxes == nil {
		c.begin(g.Width, g.Height)
	}
	if err := c.average(g); err != nil {
		return err
	}
	c.keep()
	return nil
}

// Sketches are those of the frames so far. More may be added to what they are taken of, but
// not while they are looked at.
func (c *Collector) Sketches() *Sketches { return &c.kept }

func (c *Collector) check(g footage.Gray) error {
	k := c.kept.Len()
	switch {
	case g.Width < 1 || g.Height < 1 || len(g.Pix) != g.Width*g.Height:
		return fmt.Errorf("frame %d has %d pixels; %d x %d of them, and at least one, were to come", k, len(g.Pix), g.Width, g.Height)
	case c.boxes != nil && (g.Width != c.width || g.Height != c.height):
		return fmt.Errorf("frame %d is %d x %d pixels, those before are %d x %d; a recording has frames of one size", k, g.Width, g.Height, c.width, c.height)
	case k >= MaxFrames:
		return fmt.Errorf("frame %d is beyond the %d frames that can be compared; take a range of them, or every second", k, MaxFrames)
	}
	return nil
}

func (c *Collector) begin(width, height int) {
	c.width, c.height = width, height
	w, h := Size(width, height)
	c.kept.Width, c.kept.Height = w, h
	c.cells = make([]float64, w*h)
	c.boxes = []boxes{newBoxes(w, h, 12, 9), newBoxes(w, h, 3, 3)}
	for _, b := range c.boxes {
		c.kept.levels = append(c.kept.levels, plane{size: b.count()})
	}
	c.kept.levels = append(c.kept.levels, plane{size: w * h})
}

// Size is how many cells a sketch has of a frame of so many pixels, across and down: as many
// as MaxCells allows at nearly the frame's own shape, and no more than it has pixels.
func Size(width, height int) (w, h int) {
	ideal := math.Sqrt(MaxCells * float64(width) / float64(height))
	w = min(width, MaxCells, max(1, int(math.Round(ideal))))
	return w, min(height, MaxCells/w)
}

// average fills the cells. Where pixels do not divide evenly, cells differ by one of them.
func (c *Collector) average(g footage.Gray) error {
	clear(c.cells)
	w, h := c.kept.Width, c.kept.Height
	for y := range h {
		top, bottom := y*g.Height/h, (y+1)*g.Height/h
		for line := top; line < bottom; line++ {
			addRow(c.cells[y*w:(y+1)*w], g.Row(line))
		}
		for x := range w {
			pixels := (bottom - top) * ((x+1)*g.Width/w - x*g.Width/w)
			v := c.cells[y*w+x] / float64(pixels)
			if math.IsNaN(v) {
				return fmt.Errorf("frame %d has pixels that are no numbers, near %d, %d; each must be from 0 to 1", c.kept.Len(), x*g.Width/w, top)
			}
			c.cells[y*w+x] = v
		}
	}
	return nil
}

// addRow adds a row of pixels to its row of cells.
func addRow(cells []float64, row []float32) {
	for x := range cells {
		sum := 0.0
		for _, v := range row[x*len(row)/len(cells) : (x+1)*len(row)/len(cells)] {
			sum += float64(min(max(v, 0), 1))
		}
		cells[x] += sum
	}
}

// keep adds the cells to every level.
func (c *Collector) keep() {
	fine := c.kept.levels[len(c.boxes)].add()
	sum := 0.0
	for i, v := range c.cells {
		fine[i] = float32(v)
		sum += float64(fine[i])
	}
	for l, b := range c.boxes {
		b.fill(c.kept.levels[l].add(), fine)
	}
	c.kept.Means = append(c.kept.Means, sum/float64(len(fine)))
}

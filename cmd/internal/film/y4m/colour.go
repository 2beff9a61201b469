package y4m

import "io"

// Matrix is how red, green and blue come of luma and colour differences.
type Matrix int

// Those that film is encoded by: Rec. ITU-R BT.601-7 (2011) and BT.709-6 (2015).
const (
	BT601 Matrix = iota
	BT709
)

// leastHD is the height from which on film that does not say its matrix is taken to be by
// BT.709: common practice of those who decode it, as 720 lines are the least of high definition.
const leastHD = 720

// Matrix is the one that its colours are taken to be by: the format does not say.
func (h Header) Matrix() Matrix {
	if h.Height >= leastHD {
		return BT709
	}
	return BT601
}

// ReadColour reads the next frame and hands out the rows of its planes, all as wide and high as
// luma: 0 is luma, as Read gives it, 1 and 2 the differences of blue and of red, from -0.5 to
// 0.5. Of a recording in grey there is plane 0 alone. Its errors are those of Read.
func (r *Reader) ReadColour(row func(plane, y int, row []float32)) error {
	if err := r.frameLine(); err != nil {
		return err
	}
	if err := r.luma(func(y int, l []float32) { row(0, y, l) }); err != nil {
		return err
	}
	c := r.Header.chroma
	for plane := range min(int(c.planes), 2) {
		if err := r.difference(func(y int, d []float32) { row(plane+1, y, d) }); err != nil {
			return err
		}
	}
	if c.planes > 2 { // how opaque it is
		n, err := discard(r.in, r.Header.Luma())
		if r.at += n; err != nil {
			return r.cut(err)
		}
	}
	r.frames++
	return nil
}

// difference reads a plane of colour differences: each sample goes over as many pixels as it
// stands for.
func (r *Reader) difference(row func(y int, row []float32)) error {
	h, c := r.Header, r.Header.chroma
	wide, high := (int64(h.Width)+c.across-1)/c.across, (int64(h.Height)+c.down-1)/c.down
	bytes, out := make([]byte, wide*h.sample()), make([]float32, h.Width)
	for y := range high {
		n, err := io.ReadFull(r.in, bytes)
		if r.at += int64(n); err != nil {
			return r.cut(err)
		}
		for x := range out {
			out[x] = r.levels.difference(sampleAt(bytes, x/int(c.across), h.sample()))
		}
		for d := range c.down {
			if at := y*c.down + d; at < int64(h.Height) {
				row(int(at), out)
			}
		}
	}
	return nil
}

func sampleAt(bytes []byte, k int, size int64) uint32 {
	if size == 1 {
		return uint32(bytes[k])
	}
	return uint32(bytes[2*k]) | uint32(bytes[2*k+1])<<8
}

package alike

import "math"

// plane holds one level of all sketches, in slabs.
type plane struct {
	size  int // values a frame
	count int
	slabs [][]float32
}

// at are the values of frame k.
func (p plane) at(k int) []float32 {
	from := k % slab * p.size
	return p.slabs[k/slab][from : from+p.size]
}

// add makes room for one more frame.
func (p *plane) add() []float32 {
	if p.count%slab == 0 {
		p.slabs = append(p.slabs, make([]float32, slab*p.size))
	}
	p.count++
	return p.at(p.count - 1)
}

// boxes lay a coarse level over a sketch. The value of a box is the sum of its n cells over
// the root of n. By the inequality of Cauchy and Schwarz the square of that sum is at most n
// times the sum of squares, so
//
//	|coarse(x) - coarse(y)| <= |x - y|
//
// whatever the boxes are: two frames are at least as far apart as their coarse levels say.
// The same holds of differences of differences, as the values are linear.
type boxes struct {
	of    []int // the box of each cell
	scale []float32
}

func newBoxes(width, height, across, down int) boxes {
	columns := (width + across - 1) / across
	rows := (height + down - 1) / down
	b := boxes{of: make([]int, width*height), scale: make([]float32, columns*rows)}
	cells := make([]int, columns*rows)
	for i := range b.of {
		b.of[i] = i/width/down*columns + i%width/across
		cells[b.of[i]]++
	}
	for k, n := range cells {
		b.scale[k] = float32(1 / math.Sqrt(float64(n)))
	}
	return b
}

func (b boxes) count() int { return len(b.scale) }

func (b boxes) fill(out, cells []float32) {
	sums := make([]float64, len(out))
	for i, v := range cells {
		sums[b.of[i]] += float64(v)
	}
	for k, s := range sums {
		out[k] = float32(s * float64(b.scale[k]))
	}
}

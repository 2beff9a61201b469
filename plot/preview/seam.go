package preview

import (
	"image"
	"math"
	"slices"
)

// Seam is the loop around its seam: the last frames of a round and the first of
// the next, as the timeline shows them.
type Seam struct {
	Frames  []int64 // of the timeline, the last before the seam in the middle
	Stills  []*image.RGBA
	Changes []float64 // from each still to the next, in 255ths of full brightness; its middle one is the seam's
}

// MaxStills is how many stills a strip has on either side of the seam.
const MaxStills = 12

// Seam draws n frames on either side of the seam, n within 1..MaxStills and no
// more than the loop has.
func (f *Finder) Seam(n int) Seam {
	n = int(min(int64(min(max(n, 1), MaxStills)), f.Screen()))
	var s Seam
	for i := -n; i < n; i++ {
		k := int64(i)
		if i < 0 {
			k += f.Screen()
		}
		s.Frames = append(s.Frames, k)
		s.Stills = append(s.Stills, f.Frame(f.shown(k)))
	}
	for i := 1; i < len(s.Stills); i++ {
		s.Changes = append(s.Changes, change(s.Stills[i-1], s.Stills[i]))
	}
	return s
}

// change is the root of the mean square by which two pictures of one size
// differ.
func change(a, b *image.RGBA) float64 {
	sum := 0.0
	for i, v := range a.Pix {
		d := float64(v) - float64(b.Pix[i])
		sum += d * d
	}
	return math.Sqrt(sum / float64(3*len(a.Pix)/4))
}

// hitchShare is by how much a change must be greater than those beside it to be
// seen as a hitch, and hitchLeast how great it must be: half of a change is seen
// in a steady run of pictures, and less than one code of 255 is not seen at all.
const (
	hitchShare = 1.5
	hitchLeast = 1.0
)

// Step is the change at the seam.
func (s Seam) Step() float64 { return s.Changes[len(s.Changes)/2] }

// Usual is the greatest change beside the seam, 0 where there is none.
func (s Seam) Usual() float64 {
	rest := slices.Delete(slices.Clone(s.Changes), len(s.Changes)/2, len(s.Changes)/2+1)
	if len(rest) == 0 {
		return 0
	}
	return slices.Max(rest)
}

// Hitches tells whether the picture jumps at the seam: whether it changes much
// more there than beside it. It needs two stills on either side to tell.
func (s Seam) Hitches() bool {
	return len(s.Changes) > 1 && s.Step() > hitchLeast && s.Step() > hitchShare*s.Usual()
}

package canvas

import (
	"image"
	"math"
	"sync"
)

// Film adds canvases up, as one exposure adds up what falls on it.
type Film struct {
	wide, high int
	sum        []uint32 // R, G, B of each pixel
	count      uint32
}

// maxExposures is how many canvases a film holds before a sum might not fit.
const maxExposures = math.MaxUint32 / math.MaxUint16

// NewFilm returns a film on which nothing has fallen.
func NewFilm(wide, high int) *Film {
	return &Film{wide: wide, high: high, sum: make([]uint32, 3*wide*high)}
}

// Add exposes the film to a canvas of its size.
func (f *Film) Add(c *Canvas) {
	if c.wide != f.wide || c.high != f.high || f.count == maxExposures {
		panic("canvas: the film takes no such picture")
	}
	f.count++
	for i, l := range c.pix {
		s := f.sum[3*i : 3*i+3 : 3*i+3]
		s[0] += uint32(l.R)
		s[1] += uint32(l.G)
		s[2] += uint32(l.B)
	}
}

// Develop returns the mean of what was added, dimmed to a share 0..1 of its light and
// coded for a screen by the curve of sRGB (IEC 61966-2-1), and clears the film.
func (f *Film) Develop(light float64) *image.RGBA {
	if f.count == 0 {
		panic("canvas: nothing fell on the film")
	}
	out := image.NewRGBA(image.Rect(0, 0, f.wide, f.high))
	// The mean, shifted to the table's index, by one multiplication.
	scale := uint64(light*float64(uint64(1)<<32/(uint64(f.count)<<codeShift))) + 1
	codes := codes()
	for i := range len(f.sum) / 3 {
		for k := range 3 {
			out.Pix[4*i+k] = codes[min(uint64(f.sum[3*i+k])*scale>>32, codeSteps-1)]
		}
		out.Pix[4*i+3] = 0xff
	}
	clear(f.sum)
	f.count = 0
	return out
}

// codeShift drops the bits of an amount of light that no code tells apart: near
// black a code is 65535/255/12.92 = 20 wide.
const (
	codeShift = 3
	codeSteps = 1 << (16 - codeShift)
)

// codes are worked out for the first film that is developed.
var codes = sync.OnceValue(func() *[codeSteps]uint8 {
	var out [codeSteps]uint8
	for i := range out {
		out[i] = coded((float64(i) + 0.5) / codeSteps)
	}
	return &out
})

// coded is the code of an amount of light of 0..1 (IEC 61966-2-1).
func coded(l float64) uint8 {
	v := 12.92 * l
	if l > 0.0031308 {
		v = 1.055*math.Pow(l, 1/2.4) - 0.055
	}
	return uint8(math.Round(255 * v))
}

// Coded returns the light that a screen gives for a code of 0xRRGGBB.
func Coded(code uint32) Light {
	one := func(v uint32) uint16 {
		s := float64(v&0xff) / 255
		if s <= 0.04045 {
			return uint16(math.Round(65535 * s / 12.92))
		}
		return uint16(math.Round(65535 * math.Pow((s+0.055)/1.055, 2.4)))
	}
	return Light{one(code >> 16), one(code >> 8), one(code)}
}

// Times returns light scaled by k >= 0, no brighter than a screen gets.
func (l Light) Times(k float64) Light {
	one := func(v uint16) uint16 { return uint16(min(float64(v)*k+0.5, 65535)) }
	return Light{one(l.R), one(l.G), one(l.B)}
}

// Toward returns the light a share of 0..1 of the way to another.
func (l Light) Toward(to Light, share float64) Light {
	return mixed(l, to, int(65536*min(max(share, 0), 1)))
}

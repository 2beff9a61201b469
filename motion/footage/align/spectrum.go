package align

import (
	"math"
	"sync"

	"gonum.org/v1/gonum/dsp/fourier"

	"seamrail/motion/footage"
)

// side is that of the square in which phases are compared, in pixels of the last level: a power
// of two, and half a million pixels of a frame come down to a quarter of it.
const side = 128

// spectrum is the Fourier transform of a picture in a square, row by row.
type spectrum [side * side]complex128

// transforms are not to be used by two at once.
var transforms = sync.Pool{New: func() any { return fourier.NewCmplxFFT(side) }}

// each applies a transform to all rows, then to all columns.
func (s *spectrum) each(f func(t *fourier.CmplxFFT, line []complex128)) {
	t := transforms.Get().(*fourier.CmplxFFT)
	defer transforms.Put(t)
	for y := range side {
		f(t, s[y*side:(y+1)*side])
	}
	var column [side]complex128
	for x := range side {
		for y := range side {
			column[y] = s[y*side+x]
		}
		f(t, column[:])
		for y := range side {
			s[y*side+x] = column[y]
		}
	}
}

func (s *spectrum) forward() {
	s.each(func(t *fourier.CmplxFFT, line []complex128) { t.Coefficients(line, line) })
}

func (s *spectrum) back() {
	s.each(func(t *fourier.CmplxFFT, line []complex128) { t.Sequence(line, line) })
}

// faded is the window of von Hann over the square: an edge goes along with no motion.
func faded(n int) float64 { return math.Pow(math.Sin(math.Pi*(float64(n)+0.5)/side), 2) }

// whole is none, for what goes round and has no edge.
func whole(int) float64 { return 1 }

// spectrumOf is that of the middle of a picture, its mean taken out, through a window each way.
// A value at (x, y) of the square is read by f, with the middle of both on each other.
func spectrumOf(across, down func(n int) float64, f func(x, y float64) (value float64, there bool)) *spectrum {
	s := &spectrum{}
	mean, weight := 0.0, 0.0
	var wx, wy [side]float64
	for n := range side {
		wx[n], wy[n] = across(n), down(n)
	}
	for y := range side {
		for x := range side {
			if v, there := f(float64(x)-(side-1)/2.0, float64(y)-(side-1)/2.0); there {
				w := wx[x] * wy[y]
				s[y*side+x] = complex(v, w)
				mean, weight = mean+w*v, weight+w
			}
		}
	}
	if weight > 0 {
		mean /= weight
	}
	for n, c := range s {
		s[n] = complex((real(c)-mean)*imag(c), 0)
	}
	s.forward()
	return s
}

// ofPicture is the spectrum of a picture, looked at through a pose: of a frame as it would look
// were it laid back.
func ofPicture(g *footage.Gray, p footage.Pose) *spectrum {
	mx, my := middle(*g)
	return spectrumOf(faded, faded, func(u, v float64) (float64, bool) {
		x, y := p.At(u, v)
		x, y = x+mx, y+my
		if !inside(g, x, y) {
			return 0, false
		}
		return float64(at(g, x, y)), true
	})
}

// peak is a shift that the phases of two spectra agree on, and how much, 0 to 1.
type peak struct{ x, y, height float64 }

// shifts are the most likely shifts from one spectrum to the other, best first.
func shifts(from, to *spectrum, count int) []peak {
	var c spectrum
	for n := range c {
		if cross := to[n] * complex(real(from[n]), -imag(from[n])); cross != 0 {
			c[n] = cross / complex(math.Hypot(real(cross), imag(cross)), 0)
		}
	}
	c.back()
	at := func(x, y int) float64 { return real(c[(y&(side-1))*side+x&(side-1)]) / (side * side) }
	var out []peak
	for y := range side {
		for x := range side {
			if h := at(x, y); h > 0 && (len(out) < count || h > out[len(out)-1].height) && highest(at, x, y) {
				out = placed(out, count, peak{signed(x) + between(at(x-1, y), h, at(x+1, y)), signed(y) + between(at(x, y-1), h, at(x, y+1)), h})
			}
		}
	}
	return out
}

// signed is an index of a transform as a shift.
func signed(n int) float64 {
	if n >= side/2 {
		n -= side
	}
	return float64(n)
}

func highest(at func(x, y int) float64, x, y int) bool {
	h := at(x, y)
	for dy := -1; dy <= 1; dy++ {
		for dx := -1; dx <= 1; dx++ {
			if (dx != 0 || dy != 0) && at(x+dx, y+dy) > h {
				return false
			}
		}
	}
	return true
}

// between is how far from the middle one of three a peak lies, in steps, -1/2 to 1/2, as the
// phases of pictures with fewer pixels than they were taken with have it: the peak shares itself
// out between two neighbours (Foroosh, Zerubia and Berthod, IEEE Trans. Image Process. 11:188,
// 2002, DOI 10.1109/83.988953).
func between(before, here, after float64) float64 {
	side, sign := after, 1.0
	if before > after {
		side, sign = before, -1
	}
	if side <= 0 {
		return 0
	}
	return sign * math.Min(side/(side+here), 0.5)
}

func placed(list []peak, count int, p peak) []peak {
	n := len(list)
	for n > 0 && list[n-1].height < p.height {
		n--
	}
	list = append(list, peak{})
	copy(list[n+1:], list[n:])
	list[n] = p
	return list[:min(len(list), count)]
}

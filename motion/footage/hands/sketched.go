package hands

import (
	"math"

	"seamrail/motion/footage"
	"seamrail/motion/footage/alike"
)

// sketched is a film of which sketches are kept, and how its frames lie.
type sketched struct {
	sketches *alike.Sketches
	frames   []footage.Frame
	px       float64 // recorded pixels of a cell
	field    field
}

// Sketched is the film of which these are sketches and courses, frame by frame, where a cell is so
// many recorded pixels wide. Each frame is held against the one before.
func Sketched(s *alike.Sketches, frames []footage.Frame, px float64) Film {
	return &sketched{sketches: s, frames: frames, px: px}
}

// Len is how many frames there are.
func (s *sketched) Len() int { return min(s.sketches.Len(), len(s.frames)) }

// Cells are those of a sketch.
func (s *sketched) Cells() (across, down int) { return s.sketches.Width, s.sketches.Height }

// Left is what a sketch has beyond the one before, laid where the camera's motion has it, at the
// brightness that most of the picture has beside it.
func (s *sketched) Left(n int, left, doubt []float32) bool {
	p := s.frames[n].FromBefore
	if n < 1 || !p.Known {
		return false
	}
	s.beyond(n, n-1, p, left, doubt)
	return true
}

// Moved is how far the corners of the picture went in a frame, in cells.
func (s *sketched) Moved(n int) float64 {
	if n < 1 || !s.frames[n].FromBefore.Known {
		return 0
	}
	return s.moved(s.frames[n].FromBefore)
}

// moved is how far a pose has the corner of a picture that it moves most, in cells.
func (s *sketched) moved(p footage.Pose) float64 {
	w, h := s.Cells()
	u, v := float64(w)/2*s.px, float64(h)/2*s.px
	most := 0.0
	for _, c := range [][2]float64{{u, v}, {-u, v}, {u, -v}, {-u, -v}} {
		x, y := p.At(c[0], c[1])
		most = max(most, math.Hypot(x-c[0], y-c[1]))
	}
	return most / s.px
}

// beyond is what sketch n has beyond sketch m, on which it lies so.
func (s *sketched) beyond(n, m int, p footage.Pose, left, doubt []float32) {
	w, h := s.Cells()
	s.warp(p.Inverse(), s.sketches.At(m), w, h, left, doubt)
	now := s.sketches.At(n)
	s.field.fit(left, now, doubt, w)
	for c := range left {
		if math.IsInf(float64(doubt[c]), 0) {
			left[c] = 0
			continue
		}
		left[c] = now[c] - left[c]*s.field.at(c%w, c/w)
	}
}

// A sketch is laid elsewhere by straight lines between the middles of its cells. What that may be
// out by is taken from how it bends there, times what a straight line lacks of a parabola, and from
// how steep it is: what is near goes further than what is far, and one motion is not that of both.
const (
	bends = 0.5
	deep  = 0.1 // of the motion: what stands a tenth of its distance nearer
)

// warp lays a sketch where a pose has it, and tells how much that may be out by.
func (s *sketched) warp(back footage.Pose, from []float32, w, h int, to, doubt []float32) {
	midX, midY := float64(w-1)/2, float64(h-1)/2
	for y := range h {
		for x := range w {
			u, v := (float64(x)-midX)*s.px, (float64(y)-midY)*s.px
			bu, bv := back.At(u, v)
			fx, fy := bu/s.px+midX, bv/s.px+midY
			c := y*w + x
			to[c], doubt[c] = sample(from, w, h, fx, fy, math.Hypot(bu-u, bv-v)/s.px)
		}
	}
}

// sample is a sketch between four cells, where it was moved by so many cells.
func sample(g []float32, w, h int, fx, fy, moved float64) (value, doubt float32) {
	const edge = 1e-6 // what stands still and is turned by nothing stays in the picture
	if fx < -edge || fy < -edge || fx > float64(w-1)+edge || fy > float64(h-1)+edge {
		return 0, float32(math.Inf(1))
	}
	x, y := min(max(int(fx), 0), max(w-2, 0)), min(max(int(fy), 0), max(h-2, 0))
	tx, ty := float32(fx-float64(x)), float32(fy-float64(y))
	at := func(i, j int) float32 { return g[min(max(j, 0), h-1)*w+min(max(i, 0), w-1)] }
	a, b, c, d := at(x, y), at(x+1, y), at(x, y+1), at(x+1, y+1)
	value = (a*(1-tx)+b*tx)*(1-ty) + (c*(1-tx)+d*tx)*ty
	bend := func(i, j int) (across, down float32) {
		m := 2 * at(i, j)
		return abs(at(i-1, j) + at(i+1, j) - m), abs(at(i, j-1) + at(i, j+1) - m)
	}
	var bendX, bendY float32
	for _, p := range [][2]int{{x, y}, {x + 1, y}, {x, y + 1}, {x + 1, y + 1}} {
		bx, by := bend(p[0], p[1])
		bendX, bendY = max(bendX, bx), max(bendY, by)
	}
	steep := max(abs(b-a), abs(d-c), abs(c-a), abs(d-b))
	doubt = bends*(tx*(1-tx)*bendX+ty*(1-ty)*bendY) + float32(deep*min(moved, 1))*steep
	return value, doubt
}

func abs(v float32) float32 {
	if v < 0 {
		return -v
	}
	return v
}

// field is by how much light changed from one frame to the next, evenly over the picture: a lamp
// that flickers is brighter on its own side.
type field struct {
	all, across, down float64
	offs              []float64 // used again
}

// at is how many times as bright a cell is.
func (f field) at(x, y int) float32 {
	return float32(f.all + f.across*float64(x) + f.down*float64(y))
}

// turns are how often the fit leaves out what does not agree with it: a hand. Each third cell is
// enough for three unknowns.
const (
	turns = 3
	each  = 3
)

// fit finds the field by least squares, weighted anew by what is left: weights of what is beyond 1.5
// standard deviations fall as one over it (P. J. Huber, Robust Statistics, DOI 10.1002/0471725250,
// section 7.8).
func (f *field) fit(before, now, doubt []float32, w int) {
	f.all, f.across, f.down = 1, 0, 0
	scale := math.Inf(1)
	for range turns {
		var m [3][4]float64
		f.offs = f.offs[:0]
		for c := 0; c < len(before); c += each {
			b := before[c]
			if math.IsInf(float64(doubt[c]), 0) {
				continue
			}
			x, y := c%w, c/w
			off := float64(now[c] - b*f.at(x, y))
			f.offs = append(f.offs, math.Abs(off))
			weight := 1.0
			if off = math.Abs(off); off > huber*scale {
				weight = huber * scale / off
			}
			v := float64(b)
			row := [3]float64{v, v * float64(x), v * float64(y)}
			for i := range row {
				for j := range row {
					m[i][j] += weight * row[i] * row[j]
				}
				m[i][3] += weight * row[i] * float64(now[c])
			}
		}
		got, ok := solved(m)
		if !ok {
			return
		}
		f.all, f.across, f.down = got[0], got[1], got[2]
		scale = max(smallest, toSigma*median(f.offs))
	}
}

const huber = 1.5

// solved is the solution of three equations; false where they do not tell it, as in the dark.
func solved(m [3][4]float64) (out [3]float64, ok bool) {
	const none = 1e-9
	for i := range 3 {
		best := i
		for k := i + 1; k < 3; k++ {
			if math.Abs(m[k][i]) > math.Abs(m[best][i]) {
				best = k
			}
		}
		if m[i], m[best] = m[best], m[i]; math.Abs(m[i][i]) < none {
			return out, false
		}
		for k := i + 1; k < 3; k++ {
			r := m[k][i] / m[i][i]
			for j := i; j < 4; j++ {
				m[k][j] -= r * m[i][j]
			}
		}
	}
	for i := 2; i >= 0; i-- {
		out[i] = m[i][3]
		for j := i + 1; j < 3; j++ {
			out[i] -= m[i][j] * out[j]
		}
		out[i] /= m[i][i]
	}
	return out, true
}

package against

import (
	"math"

	"seamrail/motion/vibration/spring"
)

// window is a stretch of frames in which something may swing by itself.
type window struct {
	group  int // windows of one group swing alike
	frames []int
	frame  float64   // s that a frame lasts
	times  []float64 // s since its beginning
	values []float64 // px
}

// swing is a free swing that windows have in common:
//
//	exp(-D w t) (a cos wd t + b sin wd t)
//
// about a middle that each window has of its own.
type swing struct {
	spring.Spring
	a, b    map[int]float64 // px, by group
	sure    map[int]float64 // px: the standard uncertainty of a group's amplitude
	rest    float64         // sum of squares that it leaves
	fSure   float64         // Hz
	dSure   float64         // share of critical
	samples int
	wins    []window // in which it was looked for
	driven  bool     // it is all that an axis sets its load to, and has no parts of its own
}

// damped swing by swing, by share of critical: what is tried first.
var dampings = [...]float64{0.005, 0.01, 0.02, 0.04, 0.08, 0.16, 0.32}

const (
	perSpan     = 6    // frequencies that are tried for each that a window can tell apart
	mostTried   = 600  // frequencies
	leastSwings = 0.75 // of a window: what is slower is no swing but a creep
	topShare    = 0.97 // of half the frame rate: nearer to it two phases cannot be told apart
	leastFrames = 6    // of a window: one more than a swing and its middle have unknowns
)

// ringing finds the swing that explains windows best: every frequency up to half the frame rate is
// tried, then the best is improved.
//
// What is slower than low, Hz, is not looked for.
func ringing(wins []window, rate, low float64) (best swing, ok bool) {
	long := longest(wins)
	low, high := max(low, spring.MinFrequency, leastSwings/long), topShare*rate/2
	if long == 0 || low >= high {
		return swing{}, false
	}
	best.rest = math.Inf(1)
	step := max(1/(perSpan*long), (high-low)/mostTried)
	for f := low; f <= high; f += step {
		for _, d := range dampings {
			if s := swung(wins, spring.Spring{Frequency: f, Damping: d}); s.rest < best.rest {
				best = s
			}
		}
	}
	return improved(wins, best, low, high), true
}

// longest is how long the longest of windows is, s.
func longest(wins []window) (long float64) {
	for _, w := range wins {
		long = max(long, w.times[len(w.times)-1]-w.times[0])
	}
	return long
}

// leastDamping is what a swing has at the least: below it a window shows no fading.
const leastDamping = 1e-4

func improved(wins []window, s swing, low, high float64) swing {
	return swung(wins, simplex(s.Spring, low, high, func(t spring.Spring) float64 { return swung(wins, t).rest }))
}

// turning is by what a swing turns and fades in some seconds, as a complex number.
func turning(k, wd, sec float64) complex128 {
	sin, cos := math.Sincos(wd * sec)
	e := math.Exp(-k * sec)
	return complex(e*cos, e*sin)
}

// part is the sums of a group of windows.
type part struct{ cc, cs, ss, cy, sy float64 }

// sums are those of a window about its middle, and of its squares.
func (w window) sums(k, wd float64) (p part, squares float64) {
	// From frame to frame a swing turns and fades by the same, which is quicker than to work each
	// out: over the frames of a rest nothing of it is lost.
	now, each := turning(k, wd, w.times[0]), turning(k, wd, w.frame)
	n := float64(len(w.frames))
	var c, s, y float64
	for i, v := range w.values {
		for gap := 0; i > 0 && gap < w.frames[i]-w.frames[i-1]; gap++ {
			now *= each
		}
		cos, sin := real(now), imag(now)
		c, s, y, squares = c+cos, s+sin, y+v, squares+v*v
		p.cc, p.cs, p.ss = p.cc+cos*cos, p.cs+cos*sin, p.ss+sin*sin
		p.cy, p.sy = p.cy+cos*v, p.sy+sin*v
	}
	p.cc, p.cs, p.ss = p.cc-c*c/n, p.cs-c*s/n, p.ss-s*s/n
	p.cy, p.sy = p.cy-c*y/n, p.sy-s*y/n
	return p, squares - y*y/n
}

func (p part) plus(q part) part {
	return part{p.cc + q.cc, p.cs + q.cs, p.ss + q.ss, p.cy + q.cy, p.sy + q.sy}
}

// swung solves how much of a spring's swing there is in windows, their middles taken out of all.
func swung(wins []window, s spring.Spring) swing {
	out := swing{Spring: s, a: map[int]float64{}, b: map[int]float64{}, sure: map[int]float64{}}
	parts := map[int]part{}
	for _, w := range wins {
		p, squares := w.sums(s.Damping*s.Omega(), s.Damped())
		parts[w.group] = parts[w.group].plus(p)
		out.rest += squares
		out.samples += len(w.frames)
	}
	for _, w := range wins {
		if _, done := out.a[w.group]; !done {
			out.solve(w.group, parts[w.group])
		}
	}
	out.rest = max(0, out.rest)
	return out
}

// solve works out a group's swing, and takes it out of what is left over.
func (s *swing) solve(group int, p part) {
	det := p.cc*p.ss - p.cs*p.cs
	if det <= alike*p.cc*p.ss {
		s.a[group], s.b[group], s.sure[group] = 0, 0, math.Inf(1)
		return
	}
	a, b := (p.ss*p.cy-p.cs*p.sy)/det, (p.cc*p.sy-p.cs*p.cy)/det
	s.a[group], s.b[group] = a, b
	// That of the amplitude where phase is unknown lies between those of both parts.
	s.sure[group] = math.Sqrt((p.cc + p.ss) / 2 / det)
	s.rest -= a*p.cy + b*p.sy
}

// doubt works out standard uncertainties.
func (s *swing) doubt(wins []window) {
	free := float64(s.samples - len(wins) - 2*len(s.a) - 2)
	s.fSure, s.dSure = bends(s.Spring, func(t spring.Spring) float64 { return swung(wins, t).rest }, free)
	noise := s.rest / max(1, free)
	for g := range s.sure {
		s.sure[g] *= math.Sqrt(noise)
	}
}

// strongest is the group that swings most, and by how much.
func (s *swing) strongest() (group int, amplitude float64) {
	group = -1
	for g := range s.a {
		if h := math.Hypot(s.a[g], s.b[g]); h > amplitude || h == amplitude && (group < 0 || g < group) {
			group, amplitude = g, h
		}
	}
	return group, amplitude
}

// columns are what a swing lays on frames: its two phases, for a direction in the ways.
func (s swing) columns(wins []window, group, n int, along effect) [][ways][]float64 {
	k, wd := s.Damping*s.Omega(), s.Damped()
	cos, sin := make([]float64, n), make([]float64, n)
	for _, w := range wins {
		if w.group != group {
			continue
		}
		for j, i := range w.frames {
			e := math.Exp(-k * w.times[j])
			sn, cs := math.Sincos(wd * w.times[j])
			cos[i], sin[i] = e*cs, e*sn
		}
	}
	return [][ways][]float64{spread(cos, along), spread(sin, along)}
}

// spread lays one row over the ways, along a direction.
func spread(row []float64, along effect) (v [ways][]float64) {
	for k, d := range along {
		if d == 0 {
			continue
		}
		v[k] = make([]float64, len(row))
		for i, x := range row {
			v[k][i] = d * x
		}
	}
	return v
}

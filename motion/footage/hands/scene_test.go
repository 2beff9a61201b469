package hands_test

import (
	"math"
	"math/rand/v2"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/footage"
	"seamrail/motion/footage/alike"
	"seamrail/motion/footage/hands"
)

// scene is a film that is drawn: a wall of soft spots before which the camera goes, and a hand.
type scene struct {
	frames int
	moves  func(n int) footage.Pose // how frame n lies on the first
	grain  float64                  // one standard deviation a pixel
	light  func(n int, x, y float64) float64
	hand   func(n int) (x, y, size float64, ok bool) // in px, before everything
	bright float64                                   // of the hand
	lost   func(n int) bool                          // nobody knows how frame n lies
	wobble float64                                   // px by which the poses that are told are out
	seed   uint64
}

// A picture of 640 by 360 px, as films are looked at, is drawn at every fourth or so of its points:
// three of them across and down make a cell of a sketch, which has 13 pixels across. Grain is as
// much more at each as the cell's mean then has of it.
const (
	sceneWide, sceneHigh = 144, 81
	px                   = 640.0 / sceneWide
)

// still is a camera that stands.
func still(int) footage.Pose { return footage.Same() }

// glide is one that goes by so many px a frame at the most, there and back.
func glide(px float64, frames int) func(int) footage.Pose {
	return func(n int) footage.Pose {
		p := footage.Same()
		p.X = px * float64(frames) / (2 * math.Pi) * (1 - math.Cos(2*math.Pi*float64(n)/float64(frames)))
		return p
	}
}

// wall is how bright a point of the scene is: waves of many lengths, the finest of some ten px.
var wall = sync.OnceValue(func() func(u, v float64) float64 {
	const wide, high, fine = 1400, 600, 1 // px about the middle, and each of them in so many parts
	table := make([]float32, wide*fine*high*fine)
	for y := range high * fine {
		for x := range wide * fine {
			table[y*wide*fine+x] = float32(spots(float64(x)/fine-wide/2, float64(y)/fine-high/2))
		}
	}
	at := func(x, y int) float64 {
		return float64(table[min(max(y, 0), high*fine-1)*wide*fine+min(max(x, 0), wide*fine-1)])
	}
	return func(u, v float64) float64 {
		u, v = (u+wide/2)*fine, (v+high/2)*fine
		x, y := int(u), int(v)
		u, v = u-float64(x), v-float64(y)
		return (at(x, y)*(1-u)+at(x+1, y)*u)*(1-v) + (at(x, y+1)*(1-u)+at(x+1, y+1)*u)*v
	}
})

func spots(u, v float64) float64 {
	sum := 0.45
	for n, w := range [][3]float64{{230, 0.13, 0.09}, {140, 0.9, 0.08}, {83, 2.1, 0.07}, {47, 2.8, 0.05}, {21, 0.5, 0.03}, {11, 1.7, 0.02}} {
		sin, cos := math.Sincos(w[1])
		sum += w[2] * math.Sin(2*math.Pi*(u*cos+v*sin)/w[0]+float64(n))
	}
	return sum
}

// film draws the scene, sketches it, and tells how its frames lie.
func (s scene) film(t testing.TB) hands.Film {
	t.Helper()
	chance := rand.New(rand.NewPCG(s.seed, 7))
	var c alike.Collector
	var course []footage.Frame
	before := footage.Same()
	for n := range s.frames {
		p := s.moves(n)
		back := p.Inverse()
		g := footage.NewGray(sceneWide, sceneHigh)
		var hx, hy, size float64
		there := false
		if s.hand != nil {
			hx, hy, size, there = s.hand(n)
		}
		for y := range sceneHigh {
			for x := range sceneWide {
				u, w := px*(float64(x)+0.5), px*(float64(y)+0.5)
				v := wall()(back.At(u-px*sceneWide/2, w-px*sceneHigh/2))
				if there && math.Abs(u-hx) < size && math.Abs(w-hy) < size {
					v = s.bright
				}
				if s.light != nil {
					v *= s.light(n, float64(x)/sceneWide, float64(y)/sceneHigh)
				}
				g.Pix[y*sceneWide+x] = float32(v + s.grain/px*chance.NormFloat64())
			}
		}
		require.NoError(t, c.Add(g))
		step := p.After(before.Inverse())
		step.X, step.Y = step.X+s.wobble*chance.NormFloat64(), step.Y+s.wobble*chance.NormFloat64()
		step.Known = n > 0 && (s.lost == nil || !s.lost(n))
		course = append(course, footage.Frame{FromFirst: p, FromBefore: step})
		before = p
	}
	sk := c.Sketches()
	return hands.Sketched(sk, course, px*sceneWide/float64(sk.Width))
}

// reaches is a hand that comes in from the right, does something for a while, and goes.
func reaches(first, last int) func(int) (x, y, size float64, ok bool) {
	return func(n int) (float64, float64, float64, bool) {
		if n < first || n >= last {
			return 0, 0, 0, false
		}
		in := min(float64(n-first+1), float64(last-n), 6) / 6
		return 640 - 230*in, 170, 40, true
	}
}

// deep is a scene of two rounds or more: a wall, and before it a bar that the camera passes five times
// as fast, with a hand in some round.
type deep struct {
	rounds, each int
	hand         func(n int) bool
	spins        bool // the wall turns, so that nobody knows how frames lie
	late         float64
}

// film is drawn cell by cell: what shows is what a cell's middle shows.
func (d deep) film() (*alike.Sketches, []footage.Frame, float64) {
	const w, h, cell = 48, 27, 13.0
	var c alike.Collector
	var course []footage.Frame
	var before footage.Pose
	chance := rand.New(rand.NewPCG(3, 5))
	for n := range d.rounds*d.each + 20 {
		at := max(0, float64(n)-10) // it stands before and after
		round := math.Floor(at / float64(d.each))
		at -= round*float64(d.each) + d.late*round
		if n >= d.rounds*d.each+10 {
			at = 0
		}
		go1 := 60 * (1 - math.Cos(2*math.Pi*at/float64(d.each)))
		g := footage.NewGray(w, h)
		for y := range h {
			for x := range w {
				u, v := cell*(float64(x)-w/2), cell*(float64(y)-h/2)
				seen := wall()(u-go1, v)
				if d.spins {
					sin, cos := math.Sincos(2 * math.Pi * at / float64(d.each) / 6)
					seen = wall()(u*cos-v*sin, u*sin+v*cos) + 0.2*math.Sin(at)
				}
				if bar := u + 400 - 5*go1; math.Abs(bar) < 60 {
					seen = 0.05
				}
				if d.hand != nil && d.hand(n) && u > 150 && math.Abs(v) < 40 {
					seen = 0.9
				}
				g.Pix[y*w+x] = float32(seen + 0.001*chance.NormFloat64())
			}
		}
		if err := c.Add(g); err != nil {
			panic(err)
		}
		p := footage.Same()
		p.X, p.Known = go1, !d.spins
		step := p.After(before.Inverse())
		step.Known = n > 0 && !d.spins
		course, before = append(course, footage.Frame{FromFirst: p, FromBefore: step}), p
	}
	return c.Sketches(), course, cell
}

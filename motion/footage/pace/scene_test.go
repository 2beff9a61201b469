package pace

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/footage"
	"seamrail/motion/footage/against"
	"seamrail/motion/footage/alike"
	"seamrail/motion/law"
)

const wide, high = 48, 27

// product is a body that turns: bright marks on a cylinder, or on a prism's sides. It is a
// texture of waves over the turn, each with its own light by height.
type product struct {
	waves []wave
	sides int // the texture comes again so often a turn
}

type wave struct {
	times, phase, light float64
	rise, shift         float64
}

func newProduct(r *rand.Rand, sides int) product {
	p := product{sides: sides}
	for k := range 10 {
		p.waves = append(p.waves, wave{
			times: float64(sides * (1 + k)), phase: 2 * math.Pi * r.Float64(),
			light: 0.09 * (0.5 + r.Float64()) / math.Sqrt(float64(1+k)),
			rise:  0.5 * float64(k) * (r.Float64() - 0.5), shift: 2 * math.Pi * r.Float64(),
		})
		if float64(sides*(1+k)) > 14 && k > 1 {
			break
		}
	}
	return p
}

// light is that of the product's skin at an angle, radians, and a height of 0 to 1.
func (p product) light(angle, height float64) float64 {
	sum := 0.45
	for _, w := range p.waves {
		sum += w.light * math.Cos(w.times*angle+w.phase) * (1 + 0.6*math.Cos(2*math.Pi*w.rise*height+w.shift))
	}
	return sum
}

// scene is how a take is made.
type scene struct {
	plan    against.Plan
	product product
	axes    []func(planned float64) float64 // degrees of the table, px of the rail; nil: the plan's own
	frames  int
	zero    float64
	time    func(planned float64) float64 // which planned frame is really shown
	noise   float64
	flicker float64
	blur    float64 // the share of a frame for which the shutter is open
	hand    [2]int  // frames in which a hand is in the picture
	dropped []int   // frames of the world that were not recorded
	seed    uint64
	stand   float64 // degrees a frame of a stand that the plan does not have
}

// draw draws the product turned by an angle, degrees, shifted by px.
func (s scene) draw(g footage.Gray, angle, shift float64) {
	turned := angle * math.Pi / 180
	radius := 14.0
	rows := 6 // bands of height with a light each
	bands := make([][]float32, rows)
	for b := range bands {
		line := make([]float32, g.Width)
		for x := range line {
			line[x] = 0.08
			u := (float64(x) - float64(g.Width)/2 - shift) / radius
			edge := min(max((1-math.Abs(u))*radius, 0), 1)
			if edge > 0 {
				u = min(max(u, -1), 1)
				v := s.product.light(math.Asin(u)+turned, float64(b)/float64(rows)) * (0.6 + 0.4*math.Sqrt(1-u*u))
				line[x] += float32(edge * (v - 0.08))
			}
		}
		bands[b] = line
	}
	for y := range g.Height {
		row := g.Row(y)
		if y < 3 || y >= g.Height-3 {
			for x := range row {
				row[x] = 0.08
			}
			continue
		}
		copy(row, bands[(y-3)*rows/(g.Height-6)])
	}
}

// film makes the sketches of a take.
func (s scene) film(t testing.TB) *alike.Sketches {
	r := rand.New(rand.NewPCG(s.seed, 77))
	var c alike.Collector
	g, one := footage.NewGray(wide, high), footage.NewGray(wide, high)
	world := 0
	for range s.frames {
		for contains(s.dropped, world) {
			world++
		}
		clear(g.Pix)
		shots := 1
		if s.blur > 0 {
			shots = 3
		}
		for q := range shots {
			at := float64(world) - s.zero + s.blur*(float64(q)-float64(shots-1)/2)/max(1, float64(shots-1))
			table, rail := s.where(at)
			s.draw(one, table+s.stand*float64(world), rail)
			for i, v := range one.Pix {
				g.Pix[i] += v / float32(shots)
			}
		}
		s.spoil(g, r, world)
		require.NoError(t, c.Add(g))
		world++
	}
	return c.Sketches()
}

func contains(of []int, k int) bool {
	for _, v := range of {
		if v == k {
			return true
		}
	}
	return false
}

func (s scene) where(planned float64) (table, rail float64) {
	if s.time != nil {
		planned = s.time(planned)
	}
	planned = min(max(planned, -float64(s.plan.RunUp)), float64(s.plan.Loop*int64(s.plan.Rounds)+s.plan.RunOut))
	for a, x := range s.plan.Axes {
		at := x.At(planned / s.plan.CaptureRate.Float())
		if s.axes != nil {
			at = s.axes[a](planned)
		}
		if x.Turning {
			table += at
		} else {
			rail += at / 20
		}
	}
	return table, rail
}

// spoil puts a hand, flicker and noise on a frame.
func (s scene) spoil(g footage.Gray, r *rand.Rand, k int) {
	if k >= s.hand[0] && k < s.hand[1] {
		cx, cy := 10+20*math.Sin(float64(k)/5), 14+6*math.Cos(float64(k)/3)
		for y := range g.Height {
			for x := range g.Width {
				if math.Hypot(float64(x)-cx, float64(y)-cy) < 7 {
					g.Pix[y*g.Width+x] = 0.6
				}
			}
		}
	}
	gain := float32(1 + s.flicker*math.Sin(2.1*float64(k)+1))
	for i := range g.Pix {
		g.Pix[i] = gain*g.Pix[i] + float32(s.noise*r.NormFloat64())
	}
}

// leg is a part of an axis's round.
type leg struct {
	frames float64
	to     float64
	law    law.Law // nil: it stands
}

// round is where an axis of legs is, which begins at 0 and goes on from where it came to.
func round(legs ...leg) (at func(frame float64) float64, loop float64) {
	var gained float64
	for _, l := range legs {
		loop += l.frames
		gained = l.to
	}
	return func(frame float64) float64 {
		n := math.Floor(frame / loop)
		u, was := frame-loop*n, 0.0
		for _, l := range legs {
			if u < l.frames {
				if l.law == nil {
					return n*gained + was
				}
				return n*gained + was + (l.to-was)*l.law.At(u/l.frames).S
			}
			u, was = u-l.frames, l.to
		}
		return n*gained + was
	}, loop
}

// once is a motion in the rounds of a take; before it stands, and after.
func once(at func(float64) float64, p against.Plan) func(float64) float64 {
	end := float64(p.Loop * int64(p.Rounds))
	return func(frame float64) float64 { return at(min(max(frame, 0), end)) }
}

func axisOf(name string, turning bool, at func(float64) float64) against.Axis {
	return against.Axis{Name: name, Turning: turning, At: func(s float64) float64 { return at(s * 24) }}
}

func planOf(loop float64, rounds int) against.Plan {
	return against.Plan{CaptureRate: exact.Int(24), Loop: int64(loop), Rounds: rounds}
}

func mustLaw(name string) law.Law {
	l, err := law.Named(name)
	if err != nil {
		panic(err)
	}
	return l
}

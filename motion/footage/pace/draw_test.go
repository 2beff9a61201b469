package pace

import (
	"math"
	"math/rand/v2"

	"seamrail/motion/footage/against"
	"seamrail/motion/law"
)

// drawing makes takes at random.
type drawing struct{ *rand.Rand }

func newDrawing(seed uint64) drawing { return drawing{rand.New(rand.NewPCG(seed, 20))} }

func (d drawing) between(lo, hi float64) float64 { return lo + (hi-lo)*d.Float64() }

func (d drawing) whole(lo, hi int) float64 { return float64(lo + d.IntN(hi-lo+1)) }

var softLaws = []string{"harmonic", "cycloidal", "modified-sine", "3-4-5", "4-5-6-7"}

// shape is a motion as numbers that may be changed.
type shape struct {
	law          law.Law
	go1, go2     float64 // frames of both moves
	rest1, rest2 float64
	there        float64 // degrees at which the first move ends, and the second
	back         float64
	rail         float64 // mm that a rail goes there and back at the same times
}

func (d drawing) shape(product product) shape {
	s := shape{law: mustLaw(softLaws[d.IntN(len(softLaws))])}
	s.go1, s.go2 = d.whole(40, 80), d.whole(40, 80)
	s.rest1, s.rest2 = d.whole(6, 20), d.whole(8, 20)
	s.there = d.between(50, 150)
	if d.IntN(2) == 0 { // it goes on
		s.back = 360 / float64(product.sides)
		s.there = s.back * d.between(0.4, 0.6)
	}
	if d.IntN(2) == 0 {
		s.rail = d.between(30, 100)
	}
	return s
}

// axes are the motions of a shape, and its loop.
func (s shape) axes() (table, rail func(float64) float64, loop float64) {
	table, loop = round(leg{s.go1, s.there, s.law}, leg{s.rest1, s.there, nil}, leg{s.go2, s.back, s.law}, leg{s.rest2, s.back, nil})
	rail, _ = round(leg{s.go1, s.rail, s.law}, leg{s.rest1, s.rail, nil}, leg{s.go2, 0, s.law}, leg{s.rest2, 0, nil})
	return table, rail, loop
}

func (s shape) plan(rounds int) against.Plan {
	table, rail, loop := s.axes()
	p := planOf(loop, rounds)
	p.Axes = append(p.Axes, axisOf("table", true, once(table, p)))
	if s.rail > 0 {
		p.Axes = append(p.Axes, axisOf("rail", false, once(rail, p)))
	}
	return p
}

// instead are the axes of another shape, in the rounds of a plan.
func (s shape) instead(p against.Plan) []func(float64) float64 {
	table, rail, _ := s.axes()
	return []func(float64) float64{once(table, p), once(rail, p)}
}

// take is a take of a plan, clean or bad.
func (d drawing) take(bad bool) (shape, scene) {
	sides := []int{1, 1, 2, 3, 4, 6}[d.IntN(6)]
	s := scene{product: newProduct(d.Rand, sides), seed: d.Uint64()}
	sh := d.shape(s.product)
	s.plan = sh.plan(1 + d.IntN(3))
	s.zero = d.between(15, 40)
	s.frames = int(s.zero) + int(s.plan.Loop)*s.plan.Rounds + 15 + d.IntN(25)
	s.noise, s.flicker = d.between(0.0005, 0.002), 0.005
	if bad {
		s.noise, s.flicker, s.blur = d.between(0.002, 0.004), 0.03, 0.5
		at := int(d.between(0.2, 0.8) * float64(s.frames))
		s.hand = [2]int{at, at + 20}
	}
	return sh, s
}

// others are ways in which a take does not go by its plan's times.
var others = []struct {
	name string
	do   func(d drawing, sh shape, s *scene)
}{
	{"law", func(d drawing, sh shape, s *scene) {
		sh.law = mustLaw(map[string]string{"harmonic": "4-5-6-7", "cycloidal": "trapezoidal", "modified-sine": "4-5-6-7", "3-4-5": "harmonic", "4-5-6-7": "harmonic"}[sh.law.Name()])
		s.axes = sh.instead(s.plan)
	}},
	{"length", func(d drawing, sh shape, s *scene) {
		by := 1 + d.between(0.01, 0.05)*float64(2*d.IntN(2)-1)
		s.time = func(j float64) float64 { return j * by }
	}},
	{"round", func(d drawing, sh shape, s *scene) {
		r, loop := float64(d.IntN(s.plan.Rounds)), float64(s.plan.Loop)
		s.time = func(j float64) float64 { return j - 0.005*loop*min(max(j/loop-r, 0), 1) }
	}},
	{"dwell", func(d drawing, sh shape, s *scene) {
		by := d.whole(2, 4)
		sh.rest1, sh.rest2 = sh.rest1+by, sh.rest2-by
		s.axes = sh.instead(s.plan)
	}},
	{"stop", func(d drawing, sh shape, s *scene) {
		for1, at := d.whole(2, 8), d.between(0.05, 0.95)*float64(int(s.plan.Loop)*s.plan.Rounds)
		u := math.Mod(at, float64(s.plan.Loop)) // in a move, or it is a longer rest
		if u > sh.go1-5 && u < sh.go1+sh.rest1+5 || u > float64(s.plan.Loop)-sh.rest2-5 || u < 5 {
			at -= u - sh.go1/2
		}
		s.time = func(j float64) float64 { return j - min(max(j-at, 0), for1) }
	}},
}

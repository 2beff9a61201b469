package optics_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"seamrail/motion/camera/optics"
)

// ray is a height and a slope at some place along the axis.
type ray struct{ y, slope, at float64 }

func (r ray) to(at float64) ray { return ray{r.y + r.slope*(at-r.at), r.slope, at} }

// bent is a ray beyond a thin lens of focal length f where the ray is.
func (r ray) bent(f float64) ray { return ray{r.y, r.slope - r.y/f, r.at} }

// compound is two thin lenses with a stop between: what no formula of package optics
// knows of. Everything about it is found by tracing rays. The first lens is at 0.
type compound struct{ first, second, stop, length, opening float64 }

func (c compound) out(r ray) ray {
	return r.to(0).bent(c.first).to(c.length).bent(c.second)
}

// crossing is where a ray meets the axis.
func (r ray) crossing() float64 { return r.at - r.y/r.slope }

// planes are the focal length and both principal planes: a ray level on one side
// leaves as if bent at the plane on the other.
func (c compound) planes() (f, front, back float64) {
	r := c.out(ray{1, 0, -1})
	f = -1 / r.slope
	back = r.crossing() - f
	mirrored := compound{c.second, c.first, c.length - c.stop, c.length, c.opening}
	q := mirrored.out(ray{1, 0, -1})
	return f, c.length - (q.crossing() - f), back
}

// pupils are where the stop seems to be from either side, and how large.
func (c compound) pupils() (entrance, exit, in, out float64) {
	through := func(f, away float64) (at, size float64) { // as seen through a lens so far from it
		r := ray{0, 1, -away}.to(0).bent(f)
		top := ray{1, 0, -away}.to(0).bent(f)
		at = r.crossing()
		return at, math.Abs(top.to(at).y)
	}
	a, sizeA := through(c.first, c.stop)
	b, sizeB := through(c.second, c.length-c.stop)
	return -a, c.length + b, sizeA * c.opening, sizeB * c.opening
}

// through is the ray from a point that passes the stop at a height.
func (c compound) through(y, at, height float64) ray {
	reach := func(slope float64) float64 { return ray{y, slope, at}.to(0).bent(c.first).to(c.stop).y }
	none, one := reach(0), reach(1)
	return ray{y, (height - none) / (one - none), at}
}

// The formulas of pupils, blur, depth and extension against rays traced through two
// lenses and a stop.
func TestAgainstTracedRays(t *testing.T) {
	apart := 0.0 // the farthest from 1 that a pupil ratio came
	rapid.Check(t, func(t *rapid.T) {
		num := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		c := compound{first: num("first", 60, 200), second: num("second", 60, 200), length: num("length", 5, 50), opening: num("opening", 2, 20)}
		c.stop = c.length * num("stop", 0, 1)
		f, front, back := c.planes()
		entrance, exit, in, out := c.pupils()
		p := out / in
		apart = math.Max(apart, math.Abs(p-1))
		assert.InDelta(t, entrance, front-optics.EntrancePupil(f, p), 1e-6*f, "front is where distances count from, ahead is towards the object")

		u := f * num("u over f", 1.3, 8)
		m := optics.Magnification(f, u)
		sensor := back + optics.ImageDistance(f, u)
		point := c.out(c.through(1, front-u, 0)).to(sensor)
		edge := c.out(c.through(1, front-u, c.opening/2)).to(sensor)
		assert.InDelta(t, point.y, edge.y, 1e-6, "the sensor is where all rays meet")
		assert.InDelta(t, -m, point.y, 1e-6)

		n := f / in
		assert.InEpsilon(t, (sensor-exit)/out, optics.Effective(n, m, p), 1e-6)

		z := u * num("z over u", 0.6, 2)
		if front-z > math.Min(0, entrance)-1 {
			return // within the glass
		}
		up, down := c.out(c.through(0, front-z, c.opening/2)).to(sensor), c.out(c.through(0, front-z, -c.opening/2)).to(sensor)
		assert.InDelta(t, math.Abs(up.y-down.y), optics.Blur(f, n, p, u, z), 1e-6, "f %v p %v u %v z %v", f, p, u, z)

		chief := c.out(c.through(10, front-z, 0)).to(sensor)
		tangent := 10 / (z - optics.EntrancePupil(f, p))
		assert.InDelta(t, -chief.y, tangent*optics.Extension(f, m, p), 1e-6)
	})
	assert.Greater(t, apart, 0.3, "pupils as unlike as lenses have them were tried")
}

// How far the old forms, of a symmetrical lens, were off at 1:1 and p = 0.6: the far
// point stands nearer to the pupil by two thirds of f than it was taken to.
func TestPupilsMatter(t *testing.T) {
	const f, n, u, z = 100.0, 8.0, 200.0, 150.0
	assert.InEpsilon(t, 150+100*(1/0.6-1), f*f/n*50/(optics.Blur(f, n, 0.6, u, z)*(u-f)), 1e-12)
	assert.InEpsilon(t, 0.6923, optics.Blur(f, n, 0.6, u, z)/optics.Blur(f, n, 1, u, z), 1e-4)
	close1, _ := optics.DepthAt(0, 1, n, 1, 0.01)
	close06, _ := optics.DepthAt(0, 1, n, 0.6, 0.01)
	assert.InEpsilon(t, (1+1/0.6)/2, close06/close1, 1e-12, "a third deeper")
}

// At p = 1 all is Greenleaf's form of depth, for a symmetrical lens.
func TestDepthOfASymmetricalLens(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, n := rapid.Float64Range(10, 300).Draw(t, "f"), rapid.Float64Range(1, 32).Draw(t, "n")
		c, u := rapid.Float64Range(0.002, 0.05).Draw(t, "c"), f*rapid.Float64Range(1.2, 30).Draw(t, "u over f")
		h := optics.Hyperfocal(f, n, c)
		near, far := optics.Depth(f, n, 1, c, u)
		assert.InEpsilon(t, u*(h-f)/(h+u-2*f), near, 1e-9)
		if u < h*(1-1e-9) {
			assert.InEpsilon(t, u*(h-f)/(h-u), far, 1e-6)
		}
	})
}

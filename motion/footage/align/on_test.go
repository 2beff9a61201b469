package align_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/footage"
	"seamrail/motion/footage/align"
)

const width, height = 640, 360

// within a tenth of a pixel is what is promised of a shift; these are what pictures with some
// noise allow.
const (
	tenth       = 0.1
	turnWithin  = 0.02 // degrees: a tenth of a pixel at the edge
	scaleWithin = 3e-4
)

func assertFound(t *testing.T, want, got footage.Pose) {
	t.Helper()
	require.True(t, got.Known, "%+v", want)
	assert.Less(t, math.Hypot(got.X-want.X, got.Y-want.Y), tenth, "%+v: %+v", want, got)
	assert.InDelta(t, want.Turn, got.Turn, turnWithin)
	assert.InDelta(t, want.Scale, got.Scale, scaleWithin)
}

// lies is a pose drawn within bounds: shift of a share of the frame, turn in degrees, growth.
func lies(r *rand.Rand, shift, turn, growth float64) footage.Pose {
	f := func(most float64) float64 { return most * (2*r.Float64() - 1) }
	p := footage.Same()
	p.X, p.Y, p.Turn, p.Scale = f(shift*width), f(shift*height), f(turn), math.Exp(f(growth))
	return p
}

func first(seed uint64) ([]blob, *align.Picture) {
	sc := scene(seed, width, height, 900)
	return sc, align.Prepare(grainy(seen(sc, width, height, footage.Same()), 0.01, seed))
}

// Nothing is told of where the frame is. What it says of its own uncertainty must hold too.
func TestShiftsTurnsAndScalesAreFound(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	sc, reference := first(1)
	beyond, all := 0, 0
	for _, most := range []struct{ shift, turn, growth float64 }{{0.003, 0, 0}, {0.03, 0, 0}, {0.3, 2, 0.02}, {0.03, 20, 0.2}, {0.03, 90, 0.4}} {
		for n := range 6 {
			want := lies(r, most.shift, most.turn, most.growth)
			got := align.On(reference, align.Prepare(grainy(seen(sc, width, height, want), 0.01, uint64(n+10))), nil)
			assertFound(t, want, got)
			for _, e := range []float64{(got.X - want.X) / got.Doubt.X, (got.Y - want.Y) / got.Doubt.Y, (got.Turn - want.Turn) / got.Doubt.Turn, (got.Scale - want.Scale) / got.Doubt.Scale} {
				if all++; math.Abs(e) > 2 {
					beyond++
				}
			}
		}
	}
	assert.LessOrEqual(t, beyond, all/8, "one in twenty lies beyond two standard uncertainties where they are true")
}

// A frame that lies where the reference does is told so, to its own grain.
func TestNothingMovesNothing(t *testing.T) {
	sc, reference := first(2)
	got := align.On(reference, align.Prepare(grainy(seen(sc, width, height, footage.Same()), 0.01, 99)), nil)
	assertFound(t, footage.Same(), got)
	assert.Greater(t, got.Shared, 0.7)
}

// A change of light, and one of contrast, moves nothing.
func TestLightMovesNothing(t *testing.T) {
	sc, reference := first(3)
	want := footage.Linear(3.4, -2.3, 1, 0)
	g := seen(sc, width, height, want)
	for n, v := range g.Pix {
		g.Pix[n] = 0.1 + 0.6*v + 0.1*float32(n%width)/width
	}
	assertFound(t, want, align.On(reference, align.Prepare(grainy(g, 0.01, 4)), nil))
}

// What covers a part of the picture and moves otherwise has no weight; where it covers nearly all
// of it, it is the picture.
func TestWhatCoversAPartMovesNothing(t *testing.T) {
	sc, reference := first(4)
	hand := scene(77, width, height, 900)
	covered := func(share float64, want footage.Pose) footage.Gray {
		g, other := seen(sc, width, height, want), seen(hand, width, height, footage.Linear(want.X+17, 9, 1, 0))
		for y := range height {
			copy(g.Row(y)[:int(share*width)], other.Row(y))
		}
		return grainy(g, 0.01, 5)
	}
	want := footage.Linear(-6.3, 4.2, 1.01, 0.003)
	for _, share := range []float64{0.2, 0.45} {
		got := align.On(reference, align.Prepare(covered(share, want)), nil)
		assertFound(t, want, got)
		assert.InDelta(t, 1-share, got.Shared, 0.2)
	}
	assert.False(t, align.On(reference, align.Prepare(covered(1, want)), nil).Known)
}

// A small thing before a black wall, which is all that there is, is followed like a wall.
func TestASmallThingIsFollowed(t *testing.T) {
	var thing []blob
	for _, b := range scene(21, 110, 110, 90) {
		if math.Abs(b.x) < 55 && math.Abs(b.y) < 55 {
			thing = append(thing, blob{b.x, b.y, 2 + b.size/4, math.Abs(b.light)})
		}
	}
	black := func(p footage.Pose, seed uint64) *align.Picture {
		g := seen(thing, width, height, p)
		for n := range g.Pix {
			g.Pix[n] -= 0.33
		}
		return align.Prepare(grainy(g, 0.01, seed))
	}
	reference := black(footage.Same(), 1)
	for n, want := range []footage.Pose{footage.Linear(2.3, -1.7, 1, 0), footage.Linear(-60.4, 20.8, 1, 0), footage.Linear(120.5, 3, 1.02, 0.01)} {
		got := align.On(reference, black(want, uint64(n+2)), nil)
		require.True(t, got.Known)
		x, y := want.At(0, 0)
		u, v := got.At(0, 0)
		assert.Less(t, math.Hypot(u-x, v-y), tenth, "%+v: %+v", want, got)
	}
}

// What is smeared over some pixels is where the middle of the smear is.
func TestASmearIsAtItsMiddle(t *testing.T) {
	sc, reference := first(5)
	sum := footage.NewGray(width, height)
	const parts = 8
	for n := range parts {
		g := seen(sc, width, height, footage.Linear(12+9*(float64(n)-(parts-1)/2.0)/parts, 0, 1, 0))
		for i, v := range g.Pix {
			sum.Pix[i] += v / parts
		}
	}
	got := align.On(reference, align.Prepare(grainy(sum, 0.01, 6)), nil)
	require.True(t, got.Known)
	assert.InDelta(t, 12, got.X, tenth)
}

// Grain, a plain wall, a picture without one structure in common, and one too small for blocks
// tell nothing, and that is said.
func TestWhatHasNothingInCommonIsNotKnown(t *testing.T) {
	_, reference := first(6)
	flat := footage.NewGray(width, height)
	for n, g := range map[string]footage.Gray{"wall": flat, "grain": grainy(flat, 0.3, 7), "other": seen(scene(8, width, height, 900), width, height, footage.Same())} {
		p := align.Prepare(g)
		assert.False(t, align.On(reference, p, nil).Known, n)
		assert.False(t, align.On(p, reference, nil).Known, n)
	}
	for _, size := range []int{1, 2, 7, 20, 30} {
		small := align.Prepare(footage.NewGray(size, size))
		assert.False(t, align.On(small, small, nil).Known)
	}
}

func BenchmarkOn(b *testing.B) {
	sc, reference := first(1)
	p := footage.Linear(3.3, -1.2, 1, 0.001)
	g := grainy(seen(sc, width, height, p), 0.01, 2)
	frame := align.Prepare(g)
	b.Run("prepared", func(b *testing.B) {
		for b.Loop() {
			align.Prepare(g)
		}
	})
	b.Run("expected", func(b *testing.B) {
		for b.Loop() {
			align.On(reference, frame, &p)
		}
	})
	b.Run("unexpected", func(b *testing.B) {
		for b.Loop() {
			align.On(reference, frame, nil)
		}
	})
}

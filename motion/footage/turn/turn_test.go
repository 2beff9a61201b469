package turn_test

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/footage"
	"seamrail/motion/footage/alike"
	"seamrail/motion/footage/turn"
	"seamrail/motion/plan/sample/many"
)

// take is footage of a product on a stand, drawn frame by frame.
type take struct {
	frames  int
	period  float64   // frames a turn
	lights  []float64 // of its faces
	noise   float64   // of a pixel
	flicker float64   // share of the brightness, at no multiple of the turn
	blur    int       // pictures that an exposure is the mean of, over a frame
	wobble  float64   // degrees by which the stand is ahead and behind, three times a turn less a bit
	seed    uint64
}

const width, height = 48, 27

func (k take) turned(frame float64) float64 {
	return frame/k.period + k.wobble/360*math.Sin(2*math.Pi*2.7*frame/k.period)
}

func (k take) draw(g footage.Gray, turned float64) {
	for f, light := range k.lights {
		sin, cos := math.Sincos(2 * math.Pi * (turned + float64(f)/float64(len(k.lights))))
		x, y := width/2+width/3.0*cos, height/2+height/6.0*sin
		k.blob(g, x, y, 3*(1+0.4*sin), light*(0.7+0.3*sin)/float64(max(1, k.blur)))
	}
}

func (take) blob(g footage.Gray, x, y, radius, light float64) {
	var across [width]float32
	for u := range across {
		d := (float64(u) - x) / radius
		across[u] = float32(light * math.Exp(-d*d/2))
	}
	for v := range height {
		d := (float64(v) - y) / radius
		down, row := float32(math.Exp(-d*d/2)), g.Row(v)
		for u, a := range across {
			row[u] += a * down
		}
	}
}

func (k take) film(t testing.TB) *alike.Sketches {
	r := rand.New(rand.NewPCG(k.seed, 5))
	var c alike.Collector
	g := footage.NewGray(width, height)
	for frame := range k.frames {
		clear(g.Pix)
		for b := range max(1, k.blur) {
			k.draw(g, k.turned(float64(frame)+float64(b)/float64(max(1, k.blur))))
		}
		gain := float32(1 + k.flicker*math.Sin(0.83*float64(frame)))
		for i := range g.Pix {
			g.Pix[i] = gain*(0.15+g.Pix[i]/2) + float32(k.noise*r.NormFloat64())
		}
		require.NoError(t, c.Add(g))
	}
	return c.Sketches()
}

var (
	uneven = []float64{0.8, 0.72, 0.76, 0.68, 0.84, 0.7} // six panes that differ a little
	equal  = []float64{0.8, 0.8, 0.8, 0.8, 0.8, 0.8}
	far    = []float64{0.9, 0.3, 0.6, 0.45}
	one    = []float64{0.8}
)

func measure(t *testing.T, k take, q turn.Question) turn.Turn {
	t.Helper()
	q.Rate = exact.New(24000, 1001)
	got, err := turn.Measure(t.Context(), k.film(t), q)
	require.NoError(t, err)
	return got
}

func TestPeriods(t *testing.T) {
	for name, c := range map[string]struct {
		take
		faces int
		told  bool
		turns float64 // of a full turn that is found
		share float64 // by which the period may be off
	}{
		"one face":            {take{frames: 500, period: 151.37, lights: one}, 1, false, 1, 1e-4},
		"barely more":         {take{frames: 240, period: 171.37, lights: one}, 1, false, 1, 1e-4},
		"six panes":           {take{frames: 440, period: 200.71, lights: uneven}, 6, true, 1, 1e-4},
		"six like panes":      {take{frames: 300, period: 200.71, lights: equal}, 1, false, 1.0 / 6, 1e-4},
		"faces far apart":     {take{frames: 500, period: 201.3, lights: far}, 4, true, 1, 1e-4},
		"quick":               {take{frames: 300, period: 31.43, lights: one}, 1, false, 1, 1e-4},
		"slow":                {take{frames: 1000, period: 803.2, lights: one}, 1, false, 1, 1e-4},
		"noise":               {take{frames: 480, period: 151.37, lights: one, noise: 0.025}, 1, false, 1, 1e-3},
		"noise, flicker":      {take{frames: 480, period: 151.37, lights: one, noise: 0.025, flicker: 0.1}, 1, false, 1, 1e-3},
		"noise, flicker, six": {take{frames: 660, period: 300.71, lights: uneven, noise: 0.015, flicker: 0.1, blur: 3}, 6, true, 1, 1e-3},
		"blur":                {take{frames: 300, period: 61.43, lights: one, blur: 4, noise: 0.005}, 1, false, 1, 1e-3},
	} {
		t.Run(name, func(t *testing.T) {
			got := measure(t, c.take, turn.Question{})
			want := c.period * c.turns
			t.Logf("off %.2g, doubt %.2g", got.Frames/want-1, got.FramesDoubt/want)
			assert.Equal(t, c.faces, got.Faces)
			assert.Equal(t, c.told, got.Told)
			assert.InEpsilon(t, want, got.Frames, c.share)
			assert.InDelta(t, want, got.Frames, 4*got.FramesDoubt)
			assert.Less(t, got.FramesDoubt/want, 2*c.share)
			assert.InDelta(t, got.Frames*1001/24000, got.Period, 1e-9)
		})
	}
}

// Like panes are never told apart, however the film is.
func TestLikeFacesAreNotTold(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for range many.Times(2, 100) {
		k := take{frames: 150 + r.IntN(150), period: 60 + 60*r.Float64(), lights: []float64{0.8, 0.8, 0.8, 0.8}[:2+r.IntN(3)], noise: 0.03 * r.Float64(), flicker: 0.1 * r.Float64(), seed: r.Uint64()}
		got := measure(t, k, turn.Question{})
		face := k.period / float64(len(k.lights))
		assert.Equal(t, 1, got.Faces, "%+v", k)
		assert.False(t, got.Told)
		assert.InEpsilon(t, face, got.Frames, 1e-3, "%+v", k)
		assert.InDelta(t, face, got.Frames, 5*got.FramesDoubt, "%+v", k)

		known := measure(t, k, turn.Question{Faces: len(k.lights)})
		assert.True(t, known.Told)
		assert.InEpsilon(t, k.period, known.Frames, 1e-3, "%+v", k)
	}
}

// Where noise hides how six panes differ, what is told is a part of the turn, and how much may
// be hidden grows with the noise.
func TestFacesThatNoiseHides(t *testing.T) {
	last := 0.0
	for _, noise := range []float64{0, 0.02, 0.08} {
		got := measure(t, take{frames: 440, period: 200.71, lights: uneven, noise: noise}, turn.Question{})
		assert.Zero(t, 6%got.Faces, "%d faces, noise %g", got.Faces, noise)
		assert.InEpsilon(t, 200.71*float64(got.Faces)/6, got.Frames, 2e-3)
		assert.Greater(t, got.Hidden, last)
		last = got.Hidden
		t.Logf("noise %g: %d faces, %.2g hidden", noise, got.Faces, got.Hidden)
	}
}

// Bad takes of all sorts: the period within a thousandth, and no surer than it is.
func TestBadTakes(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	for range many.Times(2, 100) {
		k := take{frames: 300 + r.IntN(200), period: 60 + 90*r.Float64(), lights: []float64{0.9, 0.3, 0.5}[:1+r.IntN(3)], noise: 0.02 * r.Float64(), flicker: 0.1 * r.Float64(), blur: 1 + r.IntN(3), seed: r.Uint64()}
		got := measure(t, k, turn.Question{})
		assert.InEpsilon(t, k.period, got.Frames, 1e-3, "%+v", k)
		assert.InDelta(t, k.period, got.Frames, 5*got.FramesDoubt, "%+v", k)
		t.Logf("off %.2g of the period, %.2g doubts", got.Frames/k.period-1, (got.Frames-k.period)/got.FramesDoubt)
	}
}

// A stand that runs ahead and behind: its phase is followed frame by frame.
func TestPhases(t *testing.T) {
	k := take{frames: 420, period: 120, lights: one, wobble: 3, noise: 0.005}
	got := measure(t, k, turn.Question{})
	require.Len(t, got.Phases, k.frames)
	assert.InEpsilon(t, k.period, got.Frames, 1e-2)
	var off []float64
	for i, p := range got.Phases {
		if math.IsNaN(p) || i < 150 {
			continue
		}
		// A frame shows a place of the first turn, which had its own wobble there.
		at := math.Mod(p, 1) * got.Frames
		within := math.Remainder(k.turned(float64(i))-k.turned(at), 1)
		over := math.Remainder(k.turned(float64(i))-k.turned(at+got.Frames), 1) // just after the first turn
		off = append(off, min(math.Abs(within), math.Abs(over))*360)
	}
	assert.Greater(t, len(off), 240)
	slices.Sort(off)
	assert.Less(t, off[len(off)*9/10], 0.6, "degrees; a frame is 3")
	assert.Less(t, off[len(off)-1], 2.0)
	steady := measure(t, take{frames: 420, period: 120, lights: one, noise: 0.005}, turn.Question{})
	assert.Less(t, steady.Uneven, 0.3)
	assert.Greater(t, got.Uneven, 1.0)
}

// Less than a turn of six like panes is enough where a person knows that there are six; and
// where nobody does, the turn is that of one, with nothing to tell how much is hidden.
func TestFootageShorterThanATurn(t *testing.T) {
	k := take{frames: 150, period: 300.71, lights: equal, noise: 0.005}
	got := measure(t, k, turn.Question{Faces: 6})
	assert.True(t, got.Told)
	assert.InEpsilon(t, k.period, got.Frames, 1e-3)
	assert.InDelta(t, k.period, got.Frames, 4*got.FramesDoubt)
	assert.Less(t, got.Turns, 0.5)
	k.frames = 90
	few := measure(t, k, turn.Question{})
	assert.False(t, few.Told)
	assert.InEpsilon(t, k.period/6, few.Frames, 2e-3)
	assert.Equal(t, 1.0, few.Hidden)
}

func TestWhatIsNoTurn(t *testing.T) {
	for want, k := range map[string]take{
		"nothing moves":              {frames: 200, period: 1e12, lights: far, noise: 0.005},
		"never comes again":          {frames: 200, period: 320, lights: one},
		"or more":                    {frames: 10, period: 5, lights: one},
		"nothing moves in the foota": {frames: 100, period: 1e12, lights: far},
	} {
		_, err := turn.Measure(t.Context(), k.film(t), turn.Question{Rate: exact.Int(24)})
		assert.ErrorContains(t, err, want)
	}
	s := take{frames: 200, period: 50, lights: one}.film(t)
	_, err := turn.Measure(t.Context(), s, turn.Question{})
	assert.ErrorContains(t, err, "above 0")
	_, err = turn.Measure(t.Context(), s, turn.Question{Rate: exact.Int(24), Faces: 25})
	assert.ErrorContains(t, err, "1 to 24")
	stopped, stop := context.WithCancel(t.Context())
	stop()
	_, err = turn.Measure(stopped, s, turn.Question{Rate: exact.Int(24)})
	assert.ErrorIs(t, err, context.Canceled)
}

func BenchmarkTurnOf3000Frames(b *testing.B)  { benchmark(b, 3000) }
func BenchmarkTurnOf15000Frames(b *testing.B) { benchmark(b, 15000) }

func benchmark(b *testing.B, frames int) {
	s := take{frames: frames, period: 251.3, lights: uneven, noise: 0.005}.film(b)
	for b.Loop() {
		_, err := turn.Measure(b.Context(), s, turn.Question{Rate: exact.Int(24)})
		require.NoError(b, err)
	}
}

package verify

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
)

// TestWhatASeamIsTold: of 60 mm in 2 s a jump of a ten-millionth of a mm, of a thousandth
// of a mm/s, of a mm/s2 and of a hundredth of the jerk, 10 mm/s3, is told from none; all
// far below a step of 1/80 mm and what an eye sees. A ten-thousandth of that is not.
func TestWhatASeamIsTold(t *testing.T) {
	most := [4]float64{1e-7, 1e-3, 1, 10}
	for order, told := range soundPromise() {
		assert.LessOrEqual(t, told, most[order], "derivative %d", order)
		for _, x := range []struct {
			size float64
			ok   bool
		}{{2 * most[order], false}, {-2 * most[order], false}, {1e-4 * most[order], true}, {-1e-4 * most[order], true}} {
			p := planted{cosine: sound(), order: order, size: x.size, at: 2, beside: 1, seam: true}
			s := measureSeam(p, 0, measure(context.Background(), p, 0))
			assert.Equal(t, x.ok, s.Highest == 3, "derivative %d by %g: %+v", order, x.size, s)
			if !x.ok {
				// From the end to the beginning it jumps back by that.
				got := [4]float64{s.Position, s.Velocity, s.Acceleration, s.Jerk}[order]
				assert.InDelta(t, -x.size, got, 0.5*most[order], "derivative %d", order)
			}
		}
	}
}

// TestASeamFarFromNothing: a table that counts from a million degrees away has no more of
// a seam than at home, and nor has one that is bent.
func TestASeamFarFromNothing(t *testing.T) {
	for _, far := range []float64{0, 1e6, -1e6, 1e9} {
		for _, gain := range []float64{180, -33.3, 7.3} {
			r := rough{turned(0, gain), far}
			s := measureSeam(r, 0, measure(context.Background(), r, 0))
			assert.Equal(t, 3, s.Highest, "from %g deg, %g a round: %+v", far, gain, s)
		}
	}
}

// TestWhatIsSaidOfAStand: which of all that may be is so.
func TestWhatIsSaidOfAStand(t *testing.T) {
	for _, x := range []struct {
		set  func(*turning)
		ok   bool
		says string
	}{
		{func(*turning) {}, true, "turns 59 deg, -1 deg from face 1, known to 0 deg; the bound is 1 deg"},
		{func(m *turning) { m.stand.Off = exact.Int(1) }, false, "turns 59 deg, -1 deg from face 1, known to 0 deg; the bound is 1 deg; the plan says 1 deg"},
		{func(m *turning) { m.stand.Hard = false }, true, "turns 59 deg, -1 deg from face 1, known to 0 deg; the bound is 1 deg, which the shot does not state"},
		{func(m *turning) { m.stand.Bound = exact.New(1, 2) }, false, "turns 59 deg, -1 deg from face 1, known to 0 deg; the bound is 0.5 deg, as the shot states it"},
		{func(m *turning) { m.stand.Known = false }, false, "turns 59 deg, -1 deg from face 1, known to 0 deg without its drift, which nothing is known of; the bound is 1 deg, as the shot states it, and is not known to be kept"},
		{func(m *turning) { m.stand.Doubt, m.stand.Bound = exact.New(1, 59), exact.New(19, 10) }, false, "known to 1 deg; the bound is 1.9 deg, as the shot states it, and is not known to be kept"},
		{func(m *turning) { m.stand.Doubt, m.stand.Bound = exact.New(1, 59), exact.Int(2) }, true, "known to 1 deg; the bound is 2 deg"},
		{func(m *turning) { m.stand.Doubt, m.stand.Bound = exact.New(1, 59), exact.Int(30) }, true, "known to 1 deg; the bound is 30 deg"},
		{func(m *turning) { m.stand.Known, m.stand.Bound = false, exact.Int(30) }, true, "the bound is 30 deg"}, // further off is the next face
		{func(m *turning) { m.stand.Known, m.stand.Bound = false, exact.New(299, 10) }, false, "and is not known to be kept"},
	} {
		m := closing()
		x.set(&m)
		f := checkFace(m, m, 0)
		assert.Equal(t, x.ok, f.OK, f.Text)
		assert.Contains(t, f.Text, x.says)
	}
	m := closing()
	assert.Equal(t, "-29.5 deg/s at every frame", checkEven(context.Background(), m, m, 0).Text)
	m.slip = 20
	assert.Equal(t, "frame 20 finds it 1 deg from where its speed puts it", checkEven(context.Background(), m, m, 0).Text)
	for frames, says := range map[int64]string{20_000: "at every frame", 20_001: "at one frame in 2", 40_000: "at one frame in 2", 40_001: "at one frame in 3"} {
		m := closing()
		m.frames = frames
		require.Contains(t, checkEven(context.Background(), m, m, 0).Text, says, fmt.Sprint(frames))
	}
}

// TestWeightsOfADifference add up to nothing, since what stands still has no derivative,
// and rounding of each place counts by its own: by the published table the sizes of those
// of the first derivative add up to 27.73, of the second to 102.04, of the third to 208.
func TestWeightsOfADifference(t *testing.T) {
	for d, sizes := range []float64{1, 27 + 11.0/15, 102 + 2.0/45, 208} {
		sum := 0.0
		for _, w := range seamWeights[d] {
			sum += w
		}
		if d > 0 {
			assert.InDelta(t, 0, sum, 1e-12, "derivative %d", d)
		}
		assert.InEpsilon(t, sizes, seamNoise(1, 1, d)/(4*machineNoise), 1e-9, "derivative %d", d)
		assert.InEpsilon(t, 100*math.Pow(2, float64(d)), seamNoise(100, 0.5, d)/seamNoise(1, 1, d), 1e-9)
	}
}

// TestTheGreatestNumberThatWasRounded: where it is on either side of the seam, with what
// it has gained, and how far it goes in the time at which it was asked.
func TestTheGreatestNumberThatWasRounded(t *testing.T) {
	for _, x := range []struct{ after, before, gained, speed, want float64 }{
		{0.2, 0.3, 0, 0.1, 1}, {-50, 3, 0, 0, 50}, {3, -40, 0, 0, 40}, {3, 40, 25, 0, 65}, {3, -40, -25, 0, 65}, {3, 4, 0, 100, 200}, {300, 4, 0, 100, 300},
	} {
		place := func(v float64) side {
			return func(sec float64) float64 {
				if sec == 0 {
					return v
				}
				return 1e9
			}
		}
		w := wrap{end: 2, gained: x.gained}
		assert.Equal(t, x.want, w.size(place(x.after), place(x.before), peaks{speed: x.speed}), "%+v", x)
	}
}

// TestRoundingCountsAsOftenAsItIsTaken: differences of the first, second and third order
// take 2, 4 and 8 places, each with its weight; the greatest place counts, at either end.
func TestRoundingCountsAsOftenAsItIsTaken(t *testing.T) {
	h := 2.0 / minSamples
	for _, far := range []float64{0, -40, -100} { // from 40 to 100, from 0 to 60, from -60 to 0
		m := shifted{sound(), far}
		p := measure(context.Background(), m, 0)
		greatest := math.Max(math.Abs(40+far), math.Abs(100+far))
		assert.InEpsilon(t, 4*machineNoise*greatest, p.noise[0], 1e-9, "from %g", 40+far)
		for d := 1; d < 4; d++ {
			assert.InEpsilon(t, math.Pow(2, float64(d)), p.noise[d]*math.Pow(h, float64(d))/p.noise[0], 1e-9)
		}
	}
	// What a seam is told is a billionth of the way, of a mm at the least.
	assert.GreaterOrEqual(t, soundPromise()[0], 60e-9)
	small := turned(0, 0.25)
	assert.InEpsilon(t, 1e-9+2*4*2.3e-16, measureSeam(small, 0, measure(context.Background(), small, 0)).Told[0], 1e-9)
}

// shifted is the cosine so far from where it is.
type shifted struct {
	cosine
	far float64
}

func (s shifted) Position(i int, sec float64) float64 { return s.far + s.cosine.Position(i, sec) }

// TestWhatStandsStillHasNoDerivative, however far from nothing it stands: the weights of a
// difference add up to nothing only but for rounding, which a great number would show.
func TestWhatStandsStillHasNoDerivative(t *testing.T) {
	for _, far := range []float64{1, 1e9, -1e15} {
		var x [stencil]float64
		for k := range x {
			x[k] = far
		}
		for d := 1; d < 4; d++ {
			assert.Zero(t, oneSided(x, 1e-6, d), "derivative %d at %g", d, far)
		}
		assert.Equal(t, far, oneSided(x, 1e-6, 0))
	}
}

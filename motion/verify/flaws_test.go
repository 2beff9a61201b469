package verify

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// planted is the sound motion with one more: a jump of the order-th derivative at
// one instant, that is gone again, smoothly, at the other end of its stretch.
type planted struct {
	cosine
	order  int
	size   float64 // mm, mm/s, mm/s2 or mm/s3
	at     float64 // s
	beside float64 // s, the stretch: after the jump inside, before it at the seam
	seam   bool
}

func (p planted) Position(i int, sec float64) float64 {
	x := p.cosine.Position(i, sec)
	t := sec - p.at
	u := math.Abs(t) / p.beside
	if u > 1 || t > 0 && p.seam || t < 0 && !p.seam {
		return x
	}
	gone := 1 - u*u*u*u*(35-84*u+70*u*u-20*u*u*u) // three derivatives of nothing at both ends
	return x + p.size*math.Pow(t, float64(p.order))/factorial[p.order]*gone
}

var factorial = [4]float64{1, 1, 2, 6}

// atSeam is what a jump at the seam must be to be promised to be seen, over what it
// is held against.
const atSeam = 1.5

// least is the least jump inside a loop that is promised to be seen. A jump of speed
// counts as an acceleration over one step of the grid that limits are held against,
// two where it falls between; the motion may take as much off it.
func (p planted) least() float64 {
	h := p.period.Float() / minSamples
	return [3]float64{2 * h * p.axis.MaxSpeed, 4 * h * p.axis.MaxAcc, 4 * h * p.axis.MaxJerk}[p.order]
}

// seen tells whether limits or seam show what was planted. Steps are left out: they
// are those of the sound motion, and would show everything.
func (p planted) seen() bool {
	peaks := measure(context.Background(), p, 0)
	s := measureSeam(p, 0, peaks)
	if p.seam && s.Highest < p.order {
		return p.order >= 2 || !s.finding().OK // a push is told, not refused
	}
	for _, f := range checkLimits(p, 0, peaks) {
		if !f.OK {
			return true
		}
	}
	return false
}

func soundPromise() [4]float64 {
	return measureSeam(sound(), 0, measure(context.Background(), sound(), 0)).Told
}

// TestPlantedFlawsAreFound: whatever jumps by more than is promised, wherever.
func TestPlantedFlawsAreFound(t *testing.T) {
	promised := soundPromise()
	rapid.Check(t, func(rt *rapid.T) {
		p := planted{cosine: sound(), order: rapid.IntRange(0, 2).Draw(rt, "order"), seam: rapid.Bool().Draw(rt, "at the seam")}
		p.at, p.beside = 2, rapid.Float64Range(0.05, 2).Draw(rt, "stretch")
		sign := rapid.SampledFrom([]float64{-1, 1}).Draw(rt, "sign")
		times := math.Pow(10, rapid.Float64Range(0, 3).Draw(rt, "decades above the least"))
		least := p.least()
		if p.seam {
			least = atSeam * promised[p.order]
		} else {
			p.at = rapid.Float64Range(0.01, 1.9).Draw(rt, "at")
			p.beside = min(p.beside, 2-p.at)
		}
		p.size = sign * times * least
		require.True(rt, p.seen(), "a jump of the %d-th derivative by %g", p.order, p.size)
	})
}

// TestEdgeOfTheSeam: a jump is one from the share on that it is promised at, and none
// at half of that.
func TestEdgeOfTheSeam(t *testing.T) {
	for order, promised := range soundPromise() {
		for _, share := range []float64{0.5, atSeam} {
			p := planted{cosine: sound(), order: order, size: share * promised, at: 2, beside: 1, seam: true}
			s := measureSeam(p, 0, measure(context.Background(), p, 0))
			if want := order - 1; share > 1 {
				assert.Equal(t, want, s.Highest, "order %d, share %g: %+v", order, share, s)
			} else {
				assert.Equal(t, 3, s.Highest, "order %d, share %g: %+v", order, share, s)
			}
		}
	}
}

// TestWhatIsBesideTheSeamIsNotInIt: acceleration and jerk may jump as near to it as
// they like; speed does not.
func TestWhatIsBesideTheSeamIsNotInIt(t *testing.T) {
	for _, order := range []int{2, 3} {
		for decade := -9.; decade <= 0; decade += 0.25 {
			p := planted{cosine: sound(), order: order, beside: 0.9}
			p.size = []float64{0, 0, 250, 50_000}[order]
			p.at, p.seam = 2-math.Pow(10, decade), true
			s := measureSeam(p, 0, measure(context.Background(), p, 0))
			require.GreaterOrEqual(t, s.Highest, 1, "order %d at %g s from the seam: %+v", order, 2-p.at, s)
		}
	}
}

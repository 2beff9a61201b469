package spinreport

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/turntable/spin"
)

// lantern is a product of six panes on a stand of 20.4 s a turn.
func lantern(sigma exact.Rat) (spin.Product, spin.Speed) {
	v := spin.Speed{Name: "slow", Period: exact.New(204, 10), Sigma: sigma}
	return spin.Product{
		Stand: spin.Stand{Name: "display", Speeds: []spin.Speed{v}}, Symmetry: 6, Radius: exact.Int(45), Scale: exact.Int(80),
	}, v
}

func seam(t *testing.T, frames int64, sigma exact.Rat) spin.Seam {
	c, err := clock.New(exact.New(120000, 1001), exact.New(24000, 1001), exact.Rat{})
	require.NoError(t, err)
	l, err := c.LoopFrames(frames)
	require.NoError(t, err)
	p, v := lantern(sigma)
	return p.Seam(l, v)
}

func TestFigures(t *testing.T) {
	for v, want := range map[float64]string{0: "0", 1.70912: "1.709", -0.027204: "-0.0272", 12345.6: "12345.6", 360: "360", 0.00012345: "0.000123"} {
		assert.Equal(t, want, figures(v))
	}
	assert.Equal(t, "unbounded", figures(math.Inf(1)))
}

// The numbers are those of the seam by hand in motion/turntable/spin: 815 frames are
// 0.0272 degrees, 0.02137 mm, 1.709 px and 18.48 hundredths of a frame short.
func TestErrorIsToldInEveryMeasure(t *testing.T) {
	assert.Equal(t, "short of its match by 0.02721 deg, 0.02137 mm at the rim, 1.709 px, 18.48 hundredths of a frame",
		Error(seam(t, 815, exact.Rat{})))
	assert.Contains(t, Error(seam(t, 1223, exact.Rat{})), "past its match by")
	assert.Contains(t, Error(seam(t, 900, exact.Rat{})), "captured frames")
	s := seam(t, 815, exact.Rat{})
	s.Product.Radius, s.Product.Scale = exact.Rat{}, exact.Rat{}
	assert.NotContains(t, Error(s), "mm")
	s.Error = exact.Rat{}
	assert.Equal(t, "closes exactly", Error(s))
}

func TestMatchCountsFaces(t *testing.T) {
	s := seam(t, 815, exact.Rat{})
	assert.Equal(t, "2/6 turn", Match(s))
	s.Product.Symmetry, s.Match = 1, 1
	assert.Equal(t, "1 turn", Match(s))
	s.Match = 3
	assert.Equal(t, "3 turns", Match(s))
}

func TestKnownSaysWhatIsSure(t *testing.T) {
	assert.Contains(t, Known(seam(t, 815, exact.Rat{})), "if the period is as stated")
	loose := seam(t, 815, exact.New(1, 20))
	assert.Contains(t, Known(loose), "two standard uncertainties")
	assert.NotContains(t, Known(loose), "closes")
	loose.Error = exact.Rat{}
	assert.Contains(t, Known(loose), "it may not close after all")
	tight := seam(t, 815, exact.New(1, 1_000_000))
	tight.Error = exact.Rat{}
	assert.Contains(t, Known(tight), "for sure while the speed holds")
}

// The picture is asked for fewer turns than the stopwatch, and nothing is asked
// for where enough is known.
func TestNeeds(t *testing.T) {
	a := spin.Assume{Capture: exact.New(120000, 1001)}
	words := Needs(seam(t, 815, exact.New(1, 20)), a)
	assert.Regexp(t, `^time \d+ turns by stopwatch \([\d.]+ (min|h)\) or \d+ turns? in the picture \(\d+ (s|min)\)`, words)
	assert.Empty(t, Needs(seam(t, 815, exact.New(1, 1_000_000)), a))
}

func TestDriftAndOff(t *testing.T) {
	s := seam(t, 815, exact.Rat{})
	assert.Contains(t, Drift(s), "further from its match each round; the clip shows the same jump")
	s.Bound = s.Error.Abs().Mul(exact.Int(3))
	assert.Contains(t, Drift(s), "past the bound after 4 rounds")
	s.Error = exact.Rat{}
	assert.Contains(t, Drift(s), "on its match every time")
	assert.Equal(t, "moves the seam by 1.2 deg, 0.9422 mm at the rim, 75.38 px", Off(s, exact.New(1, 100)))
}

func TestBoundSaysDegrees(t *testing.T) {
	s := seam(t, 815, exact.Rat{})
	assert.Equal(t, "0.5 px, 0.007958 deg here", Bound(s))
	s.Product.Within = spin.Bound{Value: exact.New(1, 10), Unit: spin.Degrees}
	assert.Equal(t, "0.1 deg", Bound(s))
}

func TestStrobeWords(t *testing.T) {
	tell := func(period exact.Rat) (string, bool) { return Strobe(spin.StrobeOf(period, exact.Int(24), 12), 12) }
	words, natural := tell(exact.Int(20))
	assert.True(t, natural)
	assert.Contains(t, words, "it would seem to turn backwards at more than a turn in 1 s, or in fewer than 1.2 pictures a second")
	for _, c := range []struct {
		period exact.Rat
		part   string
	}{{exact.New(1, 2), "seems to stand still"}, {exact.New(10, 19), "seems to turn backwards by 1.5 deg"}, {exact.New(10, 21), "seems to turn by 1.5 deg only"}} {
		words, natural := tell(c.period)
		assert.False(t, natural)
		assert.Contains(t, words, c.part)
	}
}

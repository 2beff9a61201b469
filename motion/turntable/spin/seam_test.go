package spin

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
)

// lantern is a product of six panes, 45 mm from its middle, 80 pixels a mm, on a
// stand of a turn in 20.4 s.
func lantern() Product {
	return Product{Stand: stand(exact.New(204, 10)), Symmetry: 6, Radius: exact.Int(45), Scale: exact.Int(80)}
}

func seamOf(t require.TestingT, p Product, frames int64) Seam {
	loop, err := slow(t, "119.88", "23.976").LoopFrames(frames)
	require.NoError(t, err)
	return p.Seam(loop, p.Stand.Speeds[0])
}

// By hand: 815 frames last 815*1001/120000 = 6.798458... s and turn
// 0.333257761... of a turn, 7.557e-5 short of a third: 0.0272 degrees, and
// at 45 mm 0.02137 mm, 1.709 pixels.
func TestSeamByHand(t *testing.T) {
	s := seamOf(t, lantern(), 815)
	assert.InDelta(t, 815*1001.0/120000/20.4-1.0/3, s.Error.Float(), 1e-15)
	assert.InDelta(t, -0.02720, s.Degrees().Float(), 0.00001)
	assert.InDelta(t, 0.02137, s.Millimetres(), 0.00001)
	assert.InDelta(t, 1.709, s.Pixels(), 0.001)
	assert.InDelta(t, 2*math.Pi*45/20.4, s.Rim(), 1e-12)
	assert.False(t, s.Closes())
	assert.EqualValues(t, 4, s.Dissolve(), "1.709 px in steps of at most half a pixel")
	// A stand one per cent fast is 3.6 degrees further after a turn.
	assert.InDelta(t, 3.6/3, s.Off(exact.New(1, 100)).Float()*360, 0.001)
}

// Sure takes the uncertainty into the bound, certain the drift as well; closing
// neither.
func TestSureAndCertain(t *testing.T) {
	p := lantern()
	p.Within = Bound{exact.New(1, 10), Degrees}
	assert.False(t, seamOf(t, p, 815).Certain(), "nothing is known of its drift")
	p.Within = Bound{exact.Int(30), Degrees}
	assert.True(t, seamOf(t, p, 815).Certain(), "half a face holds whatever it does")
	p.Within = Bound{exact.New(2999, 100), Degrees}
	assert.False(t, seamOf(t, p, 815).Certain())
	p.Within = Bound{exact.New(1, 10), Degrees}
	p.Stand.Regulated = true
	assert.True(t, seamOf(t, p, 815).Certain())
	// 0.0272 of the 0.1 degrees are used up, and it turns 119.97 in all.
	bears, ok := seamOf(t, p, 815).Bears()
	require.True(t, ok)
	assert.InDelta(t, (0.1-0.0272042)/119.9728, bears.Float(), 1e-7)
	p.Stand.Regulation = bears
	assert.True(t, seamOf(t, p, 815).Certain(), "what it bears, it bears")
	p.Stand.Regulation = bears.Mul(exact.New(1001, 1000))
	assert.False(t, seamOf(t, p, 815).Certain())
	p.Stand.Regulation = exact.New(1, 100) // 1.2 degrees in a third of a turn
	s := seamOf(t, p, 815)
	assert.True(t, s.Sure())
	assert.False(t, s.Certain())
	p.Stand.Speeds[0].Sigma = exact.New(1, 100) // twice 0.06 degrees
	s = seamOf(t, p, 815)
	assert.True(t, s.Closes())
	assert.False(t, s.Sure())
}

// A bound in pixels or mm is the chord that it says.
func TestBoundIsAChord(t *testing.T) {
	p := lantern()
	for _, b := range []Bound{{exact.New(1, 2), Pixels}, {exact.Int(3), Millimetres}, {exact.Int(90), Millimetres}} {
		p.Within = b
		want := b.Value.Float()
		if b.Unit == Pixels {
			want /= 80
		}
		// The arcsine takes back what the sine takes, within its rounding.
		assert.InDelta(t, want, p.Chord(seamOf(t, p, 815).Bound), 1e-12*90)
	}
	p.Within = Bound{exact.Int(100), Millimetres}
	assert.True(t, seamOf(t, p, 815).Closes(), "beyond the diameter everything passes")
	p.Within = Bound{exact.New(36, 10), Degrees}
	assert.Equal(t, "1/100", seamOf(t, p, 815).Bound.String())
	p.Within = Bound{exact.New(1, 5), CapturedFrames}
	assert.Equal(t, "1/5", seamOf(t, p, 815).Bound.Mul(seamOf(t, p, 815).PerTurn()).String())
}

// After the rounds that Shows says, and no sooner, the product is off by more
// than its bound when rounds are filmed one after another.
func TestShowsCountsRounds(t *testing.T) {
	shown := 0
	rapid.Check(t, func(t *rapid.T) {
		p := lantern()
		p.Within = Bound{exact.New(rapid.Int64Range(1, 4000).Draw(t, "bound"), 1000), Degrees}
		s := seamOf(t, p, rapid.Int64Range(24, 3000).Draw(t, "frames"))
		n, ever := s.Shows()
		require.True(t, ever)
		off := func(rounds int64) exact.Rat { return s.Error.Abs().Mul(exact.Int(rounds)) }
		assert.True(t, s.Bound.Less(off(n)))
		assert.False(t, s.Bound.Less(off(n-1)))
		shown++
	})
	assert.Positive(t, shown)
}

// A dissolve of the frames it says keeps each frame's shift within the bound.
func TestDissolveSpreads(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := seamOf(t, lantern(), rapid.Int64Range(24, 3000).Draw(t, "frames"))
		n := s.Dissolve()
		assert.False(t, s.Bound.Less(s.Error.Abs().Quo(exact.Int(n))))
		if n > 1 {
			assert.True(t, s.Bound.Less(s.Error.Abs().Quo(exact.Int(n-1))))
		}
	})
}

// Uncertainty by the law of propagation: a period off by its uncertainty moves
// the error by Spread, to first order.
func TestSpreadIsTheDerivative(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := lantern()
		frames := rapid.Int64Range(24, 3000).Draw(t, "frames")
		p.Stand.Speeds[0].Sigma = exact.New(rapid.Int64Range(1, 1000).Draw(t, "us"), 1_000_000)
		s := seamOf(t, p, frames)
		v := p.Stand.Speeds[0]
		off := func(by exact.Rat) float64 { return s.Turns.Sub(s.Turns.Mul(v.Period).Quo(v.Period.Add(by))).Float() }
		difference := (off(v.Sigma) - off(v.Sigma.Neg())) / 2
		relative := v.Sigma.Float() / 20.4 // the next term is this squared
		assert.InDelta(t, s.Spread.Float(), difference, s.Spread.Float()*2*relative*relative+1e-15)
	})
}

func TestParseBound(t *testing.T) {
	for text, want := range map[string]Bound{
		"0.5 px": {exact.New(1, 2), Pixels}, "1 pixel": {exact.Int(1), Pixels}, "0.1 deg": {exact.New(1, 10), Degrees},
		"0.2 mm": {exact.New(1, 5), Millimetres}, "0.05 captured frames": {exact.New(1, 20), CapturedFrames},
	} {
		got, err := ParseBound(text)
		require.NoError(t, err, text)
		assert.Equal(t, want.Unit, got.Unit)
		assert.True(t, want.Value.Equal(got.Value), text)
		back, err := ParseBound(got.String())
		require.NoError(t, err)
		assert.True(t, back.Value.Equal(got.Value))
	}
	for _, text := range []string{"", "0 px", "-1 deg", "half a pixel", "3 s", "px", "0.5"} {
		_, err := ParseBound(text)
		assert.ErrorContains(t, err, "such as \"0.5 px\"", text)
	}
}

func TestParseBoundZero(t *testing.T) {
	_, err := ParseBound("0 px")
	assert.ErrorContains(t, err, "above 0")
}

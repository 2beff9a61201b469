package track

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/law"
)

// Here the speeds of two copies undo one another exactly at one of the looks;
// the turn there is found all the same.
func TestALookThatFindsNothingHidesNoTurn(t *testing.T) {
	out, err := law.Named("trapezoidal")
	require.NoError(t, err)
	back, err := law.Named("uniform")
	require.NoError(t, err)
	period := exact.New(52, 100)
	tr, err := ThereAndBack(period, ThereAndBackSpec{
		From: -5, To: 30, Out: out, Back: back, Cycles: 1, DwellFar: period.Mul(exact.New(6, 100))})
	require.NoError(t, err)
	after := func(n int64) exact.Rat { return period.Mul(exact.New(n, 1000)) }
	s, err := Shaped(tr, []Impulse{{after(368), 0.5}, {after(-2), 0.5}})
	require.NoError(t, err)
	top := 0.0
	for k := range 5000 {
		top = max(top, s.At(s.seconds*float64(k)/5000).Pos)
	}
	e := s.Extremes()
	assert.GreaterOrEqual(t, e.Max.Value, top-1e-9)
	assert.InDelta(t, top, e.Max.Value, 1e-3)
}

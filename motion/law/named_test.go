package law

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestNames(t *testing.T) {
	want := []string{"uniform", "harmonic", "cycloidal", "modified-trapezoid", "modified-sine",
		"3-4-5", "4-5-6-7", "trapezoidal", "seven-segment"}
	assert.Equal(t, want, Names())
	for _, l := range All() {
		got, err := Named(l.Name())
		require.NoError(t, err)
		assert.Equal(t, l, got)
	}
}

func TestNamedSuggests(t *testing.T) {
	for typed, want := range map[string]string{
		"harmonics":         "harmonic",
		"Cycloidal":         "cycloidal",
		"modified sine":     "modified-sine",
		"3-4-6":             "3-4-5",
		"4567":              "4-5-6-7",
		"trapezoid":         "trapezoidal",
		"modifed-trapezoid": "modified-trapezoid",
	} {
		_, err := Named(typed)
		assert.ErrorContains(t, err, `did you mean "`+want+`"?`, typed)
		assert.ErrorContains(t, err, "seven-segment", "lists every name")
	}
	for _, far := range []string{"bounce", "x-y", "", "modified-trapezoid-but-then-much-longer-yet"} {
		_, err := Named(far)
		require.Error(t, err)
		assert.NotContains(t, err.Error(), "did you mean", far)
	}
}

func TestAnyNameIsAnswered(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.String().Draw(t, "name")
		l, err := Named(name)
		if err == nil {
			require.Equal(t, name, l.Name())
			return
		}
		require.Nil(t, l)
	})
}

func TestSharesAreChecked(t *testing.T) {
	for _, bad := range []float64{0, -0.1, 0.51, 1e-300, math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err := Trapezoidal(bad)
		assert.ErrorContains(t, err, "0.25 would fit")
		_, err = SevenSegment(bad, 0.3)
		assert.ErrorContains(t, err, "ramp")
		_, err = SevenSegment(0.3, bad)
		assert.ErrorContains(t, err, "jerk share")
	}
}

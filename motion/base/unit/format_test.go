package unit_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/unit"
)

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		value float64
		dim   unit.Dimension
		want  string
	}{
		{240, unit.Length, "240 mm"},
		{187.5, unit.Speed, "187.5 mm/s"},
		{1.0 / 3, unit.Angle, "0.333333 deg"},
		{1234.56789, unit.Length, "1234.57 mm"},
		{123456789, unit.AngularJerk, "123456789 deg/s3"},
		{999.9999, unit.Acceleration, "1000 mm/s2"},
		{0.000001, unit.Length, "0.000001 mm"},
		{-1e-9, unit.Length, "0 mm"},
		{math.Copysign(0, -1), unit.Length, "0 mm"},
		{-2.5, unit.Jerk, "-2.5 mm/s3"},
		{1, unit.Length, "1 mm"}, {1, unit.Frames, "1 frame"}, {144, unit.Frames, "144 frames"},
		{1, unit.Turns, "1 turn"}, {2, unit.Turns, "2 turns"}, {1, unit.StepRate, "1 step/s"},
		{3, unit.Number, "3"},
		{math.Inf(1), unit.Jerk, "unbounded"}, {math.Inf(-1), unit.Jerk, "unbounded"},
		{1e300, unit.Jerk, "unbounded"}, {math.NaN(), unit.Jerk, "undefined"},
		{math.SmallestNonzeroFloat64, unit.Time, "0 s"},
	} {
		assert.Equal(t, c.want, unit.Format(c.value, c.dim))
	}
	q, err := unit.Parse("9.5 in")
	require.NoError(t, err)
	assert.Equal(t, "241.3 mm", q.String())
}

// What Format prints, Parse reads, within half of the last digit printed.
func TestFormatReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-unit.MaxMagnitude, unit.MaxMagnitude).Draw(t, "value")
		dim := unit.Dimension(rapid.IntRange(int(unit.Number), int(unit.StepRate)).Draw(t, "dimension"))
		s := unit.Format(v, dim)
		assert.False(t, s == "-0" || strings.HasPrefix(s, "-0 "), s)
		q, err := unit.Parse(s)
		require.NoError(t, err)
		assert.Equal(t, dim, q.Dim)
		// Half of the sixth digit of a number just over a power of ten is
		// 5e-6 of it; half of the sixth decimal is 5e-7.
		assert.InDelta(t, v, q.Float(), math.Max(5.001e-6*math.Abs(v), 5.001e-7))
	})
}

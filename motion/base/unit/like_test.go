package unit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/unit"
)

func TestLike(t *testing.T) {
	for _, c := range []struct {
		text  string
		value float64
		dim   unit.Dimension
		want  string
	}{
		{"40 mm", 5.2, unit.Length, "5.2 mm"},
		{"4 cm", 5.2, unit.Length, "0.52 cm"},
		{"  4cm ", -12, unit.Length, "-1.2 cm"},
		{"1/2 in", 25.4, unit.Length, "1 in"},
		{"0.04 m", 5.25, unit.Length, "0.00525 m"},
		{"1/6 turn", 90, unit.Angle, "0.25 turn"},
		{"60 °", 12.5, unit.Angle, "12.5 °"},
		{"60 deg", 5, unit.Length, "5 mm"}, // of another kind
		{"3", 5, unit.Length, "5 mm"},
		{"", 5, unit.Angle, "5 deg"},
		{"beat 4", 5, unit.Length, "5 mm"},
		{"4 parsec", 5, unit.Length, "5 mm"},
	} {
		assert.Equal(t, c.want, unit.Like(c.text, c.value, c.dim), c.text)
	}
}

// What is printed reads back as the value, as near as Format prints.
func TestLikeReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		value := float64(rapid.IntRange(-400_000, 400_000).Draw(t, "um")) / 1000
		text := rapid.SampledFrom([]string{"1 mm", "2 cm", "0.3 m", "7 in", "1 ft", "9 um"}).Draw(t, "like")
		q, err := unit.ParseAs(unit.Like(text, value, unit.Length), unit.Length)
		require.NoError(t, err)
		assert.InDelta(t, value, q.Float(), 2e-3, text) // six digits of a foot
	})
}

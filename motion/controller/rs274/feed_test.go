package rs274_test

import (
	"math"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/controller/rs274"
)

func TestFeedKeepsItsDigits(t *testing.T) {
	plain := regexp.MustCompile(`^[0-9]+(\.[0-9]+)?$`)
	rapid.Check(t, func(t *rapid.T) {
		// From a block of eleven days to one of a tenth of a millisecond.
		f := math.Pow(10, rapid.Float64Range(-4.2, 5.8).Draw(t, "exponent"))
		s := string(rs274.Feed{}.Append(nil, f))
		require.Regexp(t, plain, s)
		x, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		require.InEpsilon(t, f, x, 5.1e-7)
	})
}

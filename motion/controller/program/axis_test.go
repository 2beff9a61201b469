package program

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The standard library prints the same number.
func TestWordIsTheNumber(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		decimals := rapid.IntRange(0, 6).Draw(t, "decimals")
		n := rapid.Int64Range(-1e12, 1e12).Draw(t, "counts")
		got := string(appendWord(nil, 'X', n, decimals))
		require.Equal(t, "X"+strconv.FormatFloat(float64(n)/math.Pow10(decimals), 'f', decimals, 64), got)
	})
}

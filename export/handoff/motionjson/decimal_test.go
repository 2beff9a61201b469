package motionjson

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestDecimal(t *testing.T) {
	for want, x := range map[number]float64{"0": -1e-9, "-0.5": -0.5, "100": 100, "0.333333": 1.0 / 3, "-20": -20} {
		require.Equal(t, want, decimal(x, 6))
	}
	require.Equal(t, number("1920"), decimal(1920, 0))
	require.Equal(t, number("0"), decimal(-0.2, 0))
}

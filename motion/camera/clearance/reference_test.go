package clearance_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"seamrail/motion/camera/clearance"
)

// Compared with a general geometry library, which finds no depth of overlap
// and says 0; testdata/reference/README.md says how it was asked.
func TestDistancesMatchAGeometryLibrary(t *testing.T) {
	apart := 0
	for _, row := range reference(t) {
		a, b := corners(t, row[0]), corners(t, row[1])
		want, err := strconv.ParseFloat(row[2], 64)
		require.NoError(t, err)
		assert.InDelta(t, want, math.Max(0, clearance.Distance(a, b)), 1e-11, "%v", row)
		if want > 0 {
			apart++
		}
	}
	assert.Greater(t, apart, 100)
}

func reference(t *testing.T) [][]string {
	t.Helper()
	f, err := os.Open("../../../testdata/reference/convex_distances.tsv")
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comma = '\t'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	return rows[1:]
}

func corners(t *testing.T, text string) clearance.Outline {
	t.Helper()
	var o clearance.Outline
	for _, pair := range strings.Fields(text) {
		x, y, ok := strings.Cut(pair, ",")
		require.True(t, ok)
		px, err := strconv.ParseFloat(x, 64)
		require.NoError(t, err)
		py, err := strconv.ParseFloat(y, 64)
		require.NoError(t, err)
		o.Points = append(o.Points, r2.Vec{X: px, Y: py})
	}
	return o
}

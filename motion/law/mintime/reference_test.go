package mintime

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	// sameTime is relative: the reference is good to 3e-15.
	sameTime = 1e-12
	// samePlace, in mm, is a hundred thousandth of a microstep.
	samePlace = 1e-9
)

// TestReference compares with moves found by a general trajectory library and
// confirmed by search in 40 digits; testdata/reference/README.md says how.
func TestReference(t *testing.T) {
	for name, rows := range map[string]int{"rest_to_rest": 43, "velocity_ends": 28} {
		t.Run(name, func(t *testing.T) {
			got := readReference(t, name)
			require.Len(t, got, rows)
			for _, r := range got {
				r.check(t)
			}
		})
	}
}

type row map[string]string

func (r row) number(t *testing.T, name string) float64 {
	t.Helper()
	f, err := strconv.ParseFloat(r[name], 64)
	require.NoError(t, err)
	return f
}

func (r row) leg(t *testing.T) Leg {
	return Leg{
		Distance: r.number(t, "distance_mm"), Start: r.number(t, "v0"), End: r.number(t, "v1"),
		Speed: r.number(t, "vmax"), Acc: r.number(t, "amax"), Jerk: r.number(t, "jmax"),
	}
}

func (r row) check(t *testing.T) {
	leg := r.leg(t)
	m, err := leg.Fastest()
	require.NoError(t, err, "%s %+v", r["tag"], leg)
	duration := r.number(t, "duration_s")
	assert.InEpsilon(t, duration, m.Duration(), sameTime, "%s %+v", r["tag"], leg)
	for share, column := range map[float64]string{0.25: "p25", 0.5: "p50", 0.75: "p75"} {
		pos, _, _, _ := m.At(duration * share)
		assert.InDelta(t, r.number(t, column), pos, samePlace, "%s %s", r["tag"], column)
	}
	lo, hi := speeds(&m)
	slack := sameTime * leg.Speed
	assert.InDelta(t, r.number(t, "v_min"), lo, slack, "%s", r["tag"])
	assert.InDelta(t, r.number(t, "v_max"), hi, slack, "%s", r["tag"])
	assert.InDelta(t, r.number(t, "peak_speed"), math.Max(-lo, hi), slack, "%s", r["tag"])
}

// speeds returns the least and greatest speed, which are at the ends of parts.
func speeds(m *Move) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, at := range []float64{0, m.parts[2].until, m.parts[3].until, m.Duration()} {
		_, v, _, _ := m.At(at)
		lo, hi = math.Min(lo, v), math.Max(hi, v)
	}
	return lo, hi
}

func readReference(t *testing.T, name string) []row {
	t.Helper()
	f, err := os.Open("../../../testdata/reference/jerk_limited_" + name + ".tsv")
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comma = '\t'
	lines, err := r.ReadAll()
	require.NoError(t, err)
	var rows []row
	for _, line := range lines[1:] {
		m := row{}
		for i, name := range lines[0] {
			m[name] = line[i]
		}
		rows = append(rows, m)
	}
	return rows
}

package track_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/track"
)

// referenceSlack is the share of a case's greatest value by which two solvers
// in float64 may differ on systems of this size.
const referenceSlack = 1e-11

// Compared with the periodic quintic splines of a general-purpose numerical
// library; testdata/reference/README.md says how they were made.
func TestSmoothMatchesReferenceSplines(t *testing.T) {
	specs, periods := map[string]track.KeysSpec{}, map[string]exact.Rat{}
	for _, row := range table(t, "periodic_quintic_keys.tsv") {
		name := row[0]
		spec := specs[name]
		spec.Advance = rational(t, row[2])
		spec.Keys = append(spec.Keys, track.Key{Time: rational(t, row[3]), Pos: number(t, row[4])})
		specs[name], periods[name] = spec, rational(t, row[1])
	}
	require.Len(t, specs, 4)
	for _, row := range table(t, "periodic_quintic_values.tsv") {
		tr := must(t)(track.Keys(periods[row[0]], specs[row[0]]))
		e, sec := tr.Extremes(), number(t, row[1])
		s := tr.At(sec)
		reach := math.Max(math.Abs(e.Min.Value), math.Abs(e.Max.Value))
		within(t, number(t, row[2]), s.Pos, referenceSlack*reach, "%s: position at %v s", row[0], sec)
		within(t, number(t, row[3]), s.Vel, referenceSlack*math.Abs(e.Speed.Value), "%s: velocity at %v s", row[0], sec)
		within(t, number(t, row[4]), s.Acc, referenceSlack*math.Abs(e.Acc.Value), "%s: acceleration at %v s", row[0], sec)
		within(t, number(t, row[5]), s.Jerk, referenceSlack*math.Abs(e.Jerk.Value), "%s: jerk at %v s", row[0], sec)
	}
}

func table(t *testing.T, name string) [][]string {
	f, err := os.Open("../../testdata/reference/" + name)
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comma = '\t'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	return rows[1:]
}

func number(t *testing.T, s string) float64 {
	f, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return f
}

func rational(t *testing.T, s string) exact.Rat {
	r, err := exact.Parse(s)
	require.NoError(t, err)
	return r
}

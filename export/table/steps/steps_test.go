package steps_test

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/export/header"
	"seamrail/export/table/steps"
	"seamrail/motion/base/exact"
	"seamrail/motion/move"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/verify"
)

func text(t testing.TB, tr *trajectory.Trajectory, opt steps.Options) string {
	return sample.Text(t, tr, func(w io.Writer, v verify.Verdict) error { return steps.Write(w, tr, header.Of(tr.Plan(), v), opt) })
}

func TestGolden(t *testing.T) {
	sample.Golden(t, "still.csv", text(t, sample.Still(t), steps.Options{Rounds: 1}))
}

// records reads the table with the standard library's reader, which shares no
// code with the writer.
func records(t testing.TB, table string) [][]string {
	r := csv.NewReader(strings.NewReader(table))
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	require.Equal(t, "axis,direction,step,round", strings.Join(rows[0][1:], ","))
	return rows[1:]
}

func number(t testing.TB, s string) int64 {
	n, err := strconv.ParseInt(s, 10, 64)
	require.NoError(t, err)
	return n
}

func TestRowsAreTheStream(t *testing.T) {
	tr := sample.Through(t)
	rows := records(t, text(t, tr, steps.Options{Ramps: true}))
	stream := tr.Steps(trajectory.StepOptions{Rounds: 2, Ramps: true})
	for _, row := range rows {
		s, ok := stream.Next()
		require.True(t, ok)
		require.Equal(t, s.Nanos, number(t, row[0]))
		require.Equal(t, tr.Axis(s.Axis).Letter, row[1])
		require.Equal(t, int64(s.Dir), number(t, row[2]))
		require.Equal(t, s.Position, number(t, row[3]))
		require.Equal(t, s.Round, number(t, row[4]))
	}
	_, ok := stream.Next()
	require.False(t, ok, "the table has every step")
	require.Equal(t, "-1", rows[0][4])
	require.Negative(t, number(t, rows[0][0]))
}

func TestStepsAddUp(t *testing.T) {
	now := map[string]int64{}
	for _, row := range records(t, text(t, sample.Through(t), steps.Options{Rounds: 7})) {
		if from, ok := now[row[1]]; ok {
			require.Equal(t, number(t, row[3]), from+number(t, row[2]))
		}
		now[row[1]] = number(t, row[3])
	}
	require.Equal(t, int64(40*80), now["X"])
	require.InDelta(t, 3600, now["A"], 1, "seven sevenths of a turn at 10 steps a degree")
}

func TestMicrosecondsAreRoundedNanoseconds(t *testing.T) {
	tr := sample.Through(t)
	fine := records(t, text(t, tr, steps.Options{Ramps: true}))
	coarse := records(t, text(t, tr, steps.Options{Ramps: true, Unit: steps.Microseconds}))
	require.Len(t, coarse, len(fine))
	for i := range fine {
		off := number(t, coarse[i][0])*1000 - number(t, fine[i][0])
		require.LessOrEqual(t, max(off, -off), int64(500))
	}
}

func TestRefusesRounds(t *testing.T) {
	require.ErrorContains(t, steps.Write(io.Discard, sample.Still(t), header.Of(sample.Still(t).Plan(), verify.Verdict{}), steps.Options{Rounds: -1}), "at least 1")
}

func TestHandsOnWriteErrors(t *testing.T) {
	tr := sample.Through(t)
	opt := steps.Options{Rounds: 40}
	v := verify.Check(tr)
	size := len(text(t, tr, opt))
	require.Greater(t, size, 1<<16, "the table must not fit in one buffer")
	sample.Fails(t, size, func(w io.Writer) error { return steps.Write(w, tr, header.Of(tr.Plan(), v), opt) })
}

// BenchmarkWrite reports steps written as text a second: 384 000 steps of a
// 60 s loop.
func BenchmarkWrite(b *testing.B) {
	rail := sample.Rail(b, "harmonic", 240)
	rail = sample.Ways(rail, func(w *move.Ways) { w.Cycles, w.DwellFar = 10, exact.Int(0) })
	tr := sample.Make(b, 1440, sample.Bench(rig.InverseTime), rail)
	n := 0
	b.ReportAllocs()
	for b.Loop() {
		require.NoError(b, steps.Write(io.Discard, tr, header.Of(tr.Plan(), verify.Verdict{OK: true}), steps.Options{Rounds: 1}))
		n += 384_000
	}
	b.ReportMetric(float64(n)/b.Elapsed().Seconds()/1e6, "Msteps/s")
}

// TestMemoryIsFlat compares the allocations of one round with those of many.
func TestMemoryIsFlat(t *testing.T) {
	tr := sample.Through(t)
	allocs := func(rounds int64) float64 {
		return testing.AllocsPerRun(3, func() {
			require.NoError(t, steps.Write(io.Discard, tr, header.Of(tr.Plan(), verify.Verdict{OK: true}), steps.Options{Rounds: rounds}))
		})
	}
	once, often := allocs(1), allocs(200)
	// Exact arithmetic of a round's origin makes some small garbage a round.
	require.Less(t, (often-once)/199, 250.0)
}

package ticks_test

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/export/header"
	"seamrail/export/table/ticks"
	"seamrail/motion/base/exact"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/verify"
)

func text(t testing.TB, tr *trajectory.Trajectory, opt ticks.Options) string {
	return sample.Text(t, tr, func(w io.Writer, v verify.Verdict) error { return ticks.Write(w, tr, header.Of(tr.Plan(), v), opt) })
}

func rows(t testing.TB, table string) [][]int64 {
	r := csv.NewReader(strings.NewReader(table))
	r.Comment = '#'
	all, err := r.ReadAll()
	require.NoError(t, err)
	var out [][]int64
	for _, row := range all[1:] {
		var nums []int64
		for _, s := range row {
			n, err := strconv.ParseInt(s, 10, 64)
			require.NoError(t, err)
			nums = append(nums, n)
		}
		out = append(out, nums)
	}
	return out
}

func TestGolden(t *testing.T) {
	sample.Golden(t, "through.csv", text(t, sample.Through(t), ticks.Options{Tick: exact.New(1, 24), Ramps: true}))
}

// stepSlack is how far an index may lie from the position in steps: half a
// step, and the margin with which turnarounds settle.
const stepSlack = 0.52

func TestIndicesFollowThePosition(t *testing.T) {
	tr := sample.Through(t)
	tick := exact.New(1, 700)
	for _, row := range rows(t, text(t, tr, ticks.Options{Tick: tick, Rounds: 3, Ramps: true})) {
		at := tick.Mul(exact.Int(row[0])).Float()
		for i, steps := range row[1:] {
			want := tr.TakeState(i, 3, at).Pos * tr.Axis(i).StepsPerUnit.Float()
			require.InDelta(t, want, steps, stepSlack, "axis %d at tick %d", i, row[0])
		}
	}
}

func TestCoversTheTake(t *testing.T) {
	tr := sample.Still(t)
	all := rows(t, text(t, tr, ticks.Options{Rounds: 5}))
	require.Len(t, all, 5001)
	require.Equal(t, []int64{0, 3200}, all[0])
	require.Equal(t, []int64{5000, 3200}, all[5000])
	require.Equal(t, int64(3360), all[500][1], "the rail is at its far end in the middle")
}

// A tick that is no whole number of nanoseconds must not drift, over rounds
// enough for the remainder to matter.
func TestTicksDoNotDrift(t *testing.T) {
	tr := sample.Still(t)
	tick := exact.New(1, 997)
	all := rows(t, text(t, tr, ticks.Options{Tick: tick, Rounds: 97}))
	require.Len(t, all, 97*997+1)
	for round := range int64(97) {
		require.Equal(t, all[0][1], all[round*997][1], "round %d", round)
		require.Equal(t, all[200][1], all[round*997+200][1], "round %d", round)
	}
}

// A step that falls on a tick to the nanosecond has been taken by then.
func TestStepOnTheTickCounts(t *testing.T) {
	tr := sample.Still(t)
	step, ok := tr.Steps(trajectory.StepOptions{Rounds: 1}).Next()
	require.True(t, ok)
	tick := exact.New(step.Nanos, 1_000_000_000)
	all := rows(t, text(t, tr, ticks.Options{Tick: tick, Rounds: 1}))
	require.Equal(t, step.Position, all[1][1])
	require.NotEqual(t, step.Position, all[0][1])
}

func TestRefuses(t *testing.T) {
	tr := sample.Still(t)
	for want, opt := range map[string]ticks.Options{
		"0.001 s is the default": {Tick: exact.New(1, 2_000_000)},
		"must be within":         {Tick: exact.New(-1, 10)},
		"3600 s":                 {Tick: exact.Int(3601)},
		"at least 1":             {Rounds: -2},
		"simpler fraction":       {Tick: exact.New(1<<62-1, 1<<62+1).Mul(exact.New(1<<62-3, 1<<62+5))},
	} {
		require.ErrorContains(t, ticks.Write(io.Discard, tr, header.Of(tr.Plan(), verify.Verdict{}), opt), want)
	}
}

func TestHandsOnWriteErrors(t *testing.T) {
	tr := sample.Through(t)
	v := verify.Check(tr)
	opt := ticks.Options{Rounds: 20}
	size := len(text(t, tr, opt))
	require.Greater(t, size, 1<<16, "the table must not fit in one buffer")
	sample.Fails(t, size, func(w io.Writer) error { return ticks.Write(w, tr, header.Of(tr.Plan(), v), opt) })
}

// BenchmarkWrite reports rows written a second.
func BenchmarkWrite(b *testing.B) {
	tr := sample.Through(b)
	n := 0
	for b.Loop() {
		require.NoError(b, ticks.Write(io.Discard, tr, header.Of(tr.Plan(), verify.Verdict{OK: true}), ticks.Options{Rounds: 60}))
		n += 60_001
	}
	b.ReportMetric(float64(n)/b.Elapsed().Seconds()/1e6, "Mrows/s")
}

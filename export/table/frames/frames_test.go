package frames_test

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/export/header"
	"seamrail/export/table/frames"
	"seamrail/motion/base/exact"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/verify"
)

func text(t testing.TB, tr *trajectory.Trajectory, opt frames.Options) string {
	return sample.Text(t, tr, func(w io.Writer, v verify.Verdict) error { return frames.Write(w, tr, header.Of(tr.Plan(), v), opt) })
}

func read(t testing.TB, table string) (title []string, rows [][]string) {
	r := csv.NewReader(strings.NewReader(table))
	r.Comment = '#'
	all, err := r.ReadAll()
	require.NoError(t, err)
	return all[0], all[1:]
}

func TestGolden(t *testing.T) {
	sample.Golden(t, "through.csv", text(t, sample.Through(t), frames.Options{Handles: true}))
}

func TestColumns(t *testing.T) {
	title, rows := read(t, text(t, sample.Through(t), frames.Options{}))
	require.Equal(t, []string{
		"frame", "screen_s", "real_s", "timecode",
		"rail_mm", "rail_mm_per_s", "rail_mm_per_s2", "rail_steps",
		"table_deg", "table_deg_per_s", "table_deg_per_s2", "table_steps",
	}, title)
	require.Len(t, rows, 24, "frame C is frame 0 of the next round and is not delivered")
}

// Derivatives in the table must be those of the positions in the table:
// central differences of three rows, of second order in the frame's length.
func TestSpeedsAreThoseOfThePositions(t *testing.T) {
	_, rows := read(t, text(t, sample.Through(t), frames.Options{Handles: true}))
	at := func(row, col int) float64 {
		x, err := strconv.ParseFloat(rows[row][col], 64)
		require.NoError(t, err)
		return x
	}
	for _, col := range []int{4, 8} {
		for row := 1; row+1 < len(rows); row++ {
			h := at(row+1, 2) - at(row-1, 2)
			speed := (at(row+1, col) - at(row-1, col)) / h
			// h²/24 times a jerk of at most 60*2 mm / (0.4375 s)³.
			require.InDelta(t, at(row, col+1), speed, h*h/24*120/0.083+1e-4, "row %d", row)
		}
	}
}

func TestHandlesGoOnRoundTheLoop(t *testing.T) {
	_, rows := read(t, text(t, sample.Through(t), frames.Options{Handles: true}))
	require.Len(t, rows, 28)
	require.Equal(t, "-2", rows[0][0])
	require.Equal(t, "00:59:59:22", rows[0][3])
	require.Equal(t, "01:00:00:00", rows[2][3])
	require.Equal(t, "25", rows[27][0])
	require.Equal(t, rows[0][4], rows[24][4], "frame -2 shows the rail where frame 22 does")
	require.Equal(t, rows[3][4], rows[27][4])
}

// 1001/24000 s a frame has no end in decimals; a table of them must still be
// index times the exact length, to the last digit.
func TestTimesAreExact(t *testing.T) {
	_, rows := read(t, text(t, sample.Long(t), frames.Options{}))
	for k, row := range rows {
		want := exact.New(1001, 24000).Mul(exact.Int(int64(k))).Decimal(12)
		require.Equal(t, want, row[2])
	}
	require.Len(t, rows, 2400)
}

func TestNoMinusZero(t *testing.T) {
	table := text(t, sample.Through(t), frames.Options{Handles: true})
	require.NotContains(t, table, "-0.000000")
	require.NotContains(t, table, "NaN")
}

func TestHandsOnWriteErrors(t *testing.T) {
	tr := sample.Long(t)
	v := verify.Check(tr)
	size := len(text(t, tr, frames.Options{}))
	require.Greater(t, size, 1<<16, "the table must not fit in one buffer")
	sample.Fails(t, size, func(w io.Writer) error { return frames.Write(w, tr, header.Of(tr.Plan(), v), frames.Options{}) })
}

// BenchmarkWrite reports frames written a second.
func BenchmarkWrite(b *testing.B) {
	tr := sample.Long(b)
	n := 0
	for b.Loop() {
		require.NoError(b, frames.Write(io.Discard, tr, header.Of(tr.Plan(), verify.Verdict{OK: true}), frames.Options{}))
		n += 2400
	}
	b.ReportMetric(float64(n)/b.Elapsed().Seconds()/1e6, "Mframes/s")
}

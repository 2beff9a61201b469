package gcode_test

import (
	"bytes"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/export/gcode"
	"seamrail/internal/sample"
	"seamrail/motion/exact"
	"seamrail/motion/rig"
	"seamrail/motion/segment"
	"seamrail/motion/trajectory"
	"seamrail/motion/verify"
)

func text(t testing.TB, tr *trajectory.Trajectory, opt gcode.Options) string {
	return sample.Text(t, tr, func(w io.Writer, v verify.Verdict) error { return gcode.Write(w, tr, v, opt) })
}

func TestGolden(t *testing.T) {
	coarse := gcode.Options{Segmenter: segment.EqualTime{Seconds: exact.New(1, 10)}}
	sample.Golden(t, "still.ngc", text(t, sample.Still(t), coarse))
	sample.Golden(t, "through.ngc", text(t, sample.Through(t), coarse))
	sample.Golden(t, "per-minute.ngc", text(t, sample.With(t, rig.PerMinute), coarse))
}

// Every line must be what NISTIR 6556 allows: at most the controller's length,
// printable ASCII, comments that do not nest, numbers without exponent.
func TestLinesAreWellFormed(t *testing.T) {
	for _, line := range strings.Split(strings.TrimSuffix(text(t, sample.Through(t), gcode.Options{}), "\n"), "\n") {
		require.LessOrEqual(t, len(line), 80)
		require.Regexp(t, `^(\([ -'*-~]*\)|G21 G90|G9[34]|G4 P\d+(\.\d+)?|G1( [XA]-?\d+\.\d{3})+ F\d+(\.\d+)?|M2)$`, line)
		require.NotContains(t, line, "-0.000")
	}
}

// The controller acts on these bytes even inside a comment, so the caution of
// the sample rig, which has some, must not bring them in.
func TestCommentsHoldNoRealTimeBytes(t *testing.T) {
	program := text(t, sample.Through(t), gcode.Options{})
	require.Contains(t, program, "caution: The table's belt slips")
	require.NotRegexp(t, `[!?~%$]`, program)
}

func TestSaysWhenForced(t *testing.T) {
	var b bytes.Buffer
	v := verify.Verdict{Findings: []verify.Finding{{Axis: "rail", Check: "speed", Text: "speed 500 mm/s (too fast)"}}}
	require.NoError(t, gcode.Write(&b, sample.Still(t), v, gcode.Options{}))
	require.Contains(t, b.String(), "(checks: FAILED, written because it was forced)\n")
	require.Contains(t, b.String(), "(failed: rail speed 500 mm/s [too fast])\n")
}

func TestRefuses(t *testing.T) {
	v := verify.Verdict{OK: true}
	require.ErrorContains(t, gcode.Write(io.Discard, sample.Still(t), v, gcode.Options{Rounds: -1}), "at least 1")

	short := sample.Bench(rig.InverseTime)
	short.Controller.LineLength = 15
	tr := sample.Make(t, 24, short, sample.Rail(t, "3-4-5", 2), sample.Table(t))
	require.ErrorContains(t, gcode.Write(io.Discard, tr, v, gcode.Options{}), "the controller reads 15")

	for letter, want := range map[string]string{"": `letter "" must be one of`, "Q": `letter "Q" must`, "X": "axis rail too"} {
		r := sample.Bench(rig.InverseTime)
		r.Axes[1].Letter = letter
		tr := sample.Make(t, 24, r, sample.Rail(t, "3-4-5", 2), sample.Table(t))
		require.ErrorContains(t, gcode.Write(io.Discard, tr, v, gcode.Options{}), want)
	}
}

func TestHandsOnWriteErrors(t *testing.T) {
	tr := sample.Through(t)
	v := verify.Check(tr)
	opt := gcode.Options{Rounds: 50}
	size := len(text(t, tr, opt))
	require.Greater(t, size, 1<<16, "the program must not fit in one buffer")
	sample.Fails(t, size, func(w io.Writer) error { return gcode.Write(w, tr, v, opt) })
}

// BenchmarkWrite reports blocks written a second.
func BenchmarkWrite(b *testing.B) {
	tr := sample.Through(b)
	n := 0
	b.ReportAllocs()
	for b.Loop() {
		require.NoError(b, gcode.Write(io.Discard, tr, verify.Verdict{OK: true}, gcode.Options{Rounds: 1000}))
		n += 1000 * 52
	}
	b.ReportMetric(float64(n)/b.Elapsed().Seconds()/1e6, "Mblocks/s")
}

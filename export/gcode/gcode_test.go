package gcode_test

import (
	"bytes"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/export/gcode"
	"seamrail/export/header"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
	"seamrail/motion/controller/segment"
	"seamrail/motion/move"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
)

func text(t testing.TB, tr *trajectory.Trajectory, opt gcode.Options) string {
	return sample.Text(t, tr, func(w io.Writer, v verify.Verdict) error { return gcode.Write(w, tr, header.Of(tr.Plan(), v), opt) })
}

func TestGolden(t *testing.T) {
	coarse := gcode.Options{Segmenter: segment.EqualTime{Seconds: exact.New(1, 10)}, CountIn: 3}
	sample.Golden(t, "still.ngc", text(t, sample.Still(t), coarse))
	sample.Golden(t, "through.ngc", text(t, sample.Through(t), coarse))
	sample.Golden(t, "per-minute.ngc", text(t, sample.With(t, rig.PerMinute), coarse))
}

// Every line must be what NISTIR 6556 allows: at most the controller's length,
// printable ASCII, comments that do not nest, numbers without exponent.
func TestLinesAreWellFormed(t *testing.T) {
	for _, line := range strings.Split(strings.TrimSuffix(text(t, sample.Through(t), gcode.Options{}), "\n"), "\n") {
		require.LessOrEqual(t, len(line), 80)
		require.Regexp(t, `^(\([ -'*-~]*\)|G21 G90|G9[34]|G4 P\d+(\.\d+)?|G1( [XA]-?\d+\.\d{3})+ F\d+(\.\d+)?|M[02])$`, line)
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
	require.NoError(t, gcode.Write(&b, sample.Still(t), header.Of(sample.Still(t).Plan(), v), gcode.Options{}))
	require.Contains(t, b.String(), "(checks: FAILED, written because it was forced)\n")
	require.Contains(t, b.String(), "(failed: rail speed 500 mm/s [too fast])\n")
}

func TestRefuses(t *testing.T) {
	v := verify.Verdict{OK: true}
	require.ErrorContains(t, gcode.Write(io.Discard, sample.Still(t), header.Of(sample.Still(t).Plan(), v), gcode.Options{Rounds: -1}), "at least 1")

	short := sample.Bench(rig.InverseTime)
	short.Controller.LineLength = 15
	tr := sample.Make(t, 24, short, sample.Rail(t, "3-4-5", 2), sample.Table(t))
	require.ErrorContains(t, gcode.Write(io.Discard, tr, header.Of(tr.Plan(), v), gcode.Options{}), "at most the 15 that the controller reads")

	for want, c := range map[string]rig.Controller{
		"line length 11 must": {LineLength: 11}, "decimals -1 must": {Decimals: -1}, "decimals 10 must": {Decimals: 10},
	} {
		r := sample.Bench(rig.InverseTime)
		r.Controller = c
		tr := sample.Make(t, 24, r, sample.Rail(t, "3-4-5", 2))
		require.ErrorContains(t, gcode.Write(io.Discard, tr, header.Of(tr.Plan(), v), gcode.Options{}), want)
	}

	for letter, want := range map[string]string{"": `letter "" must be one of`, "Q": `letter "Q" must`, "X": "axis rail too"} {
		r := sample.Bench(rig.InverseTime)
		r.Axes[1].Letter = letter
		tr := sample.Make(t, 24, r, sample.Rail(t, "3-4-5", 2), sample.Table(t))
		require.ErrorContains(t, gcode.Write(io.Discard, tr, header.Of(tr.Plan(), v), gcode.Options{}), want)
	}
}

func TestHandsOnWriteErrors(t *testing.T) {
	tr := sample.Through(t)
	v := verify.Check(tr)
	opt := gcode.Options{Rounds: 200}
	size := len(text(t, tr, opt))
	require.Greater(t, size, 1<<16, "the program must not fit in one buffer")
	sample.Fails(t, size, func(w io.Writer) error { return gcode.Write(w, tr, header.Of(tr.Plan(), v), opt) })
}

// A take in which nothing moves is dwells and no more.
func TestHoldIsADwell(t *testing.T) {
	hold := shot.AxisMove{Name: "rail", Does: move.Hold{At: unit.Quantity{Value: exact.Int(40), Dim: unit.Length}}}
	program := text(t, sample.Make(t, 24, sample.Bench(rig.InverseTime), hold), gcode.Options{Rounds: 3})
	require.Equal(t, 3, strings.Count(program, "G4 P1\n"))
	require.Equal(t, 1, strings.Count(program, "G1 "), "the way to the start")
}

// A loop far slower than its blocks: blocks in which no motor steps give their
// time to the next, so that none is lost and none is empty.
func TestSlowMovesLoseNoTime(t *testing.T) {
	rail := sample.Rail(t, "cycloidal", 1)
	rail = sample.Ways(rail, func(w *move.Ways) { w.DwellFar = exact.Int(0) })
	tr := sample.Make(t, 24*60, sample.Bench(rig.InverseTime), rail)
	program := text(t, tr, gcode.Options{Rounds: 1, Segmenter: segment.EqualTime{}})
	var took float64
	at := 40.0
	for _, line := range strings.Split(program, "\n") {
		if x := words(t, line, 'X'); len(x) == 1 && !strings.Contains(line, "F2400") {
			if !strings.HasSuffix(line, "F60000") { // landing
				require.NotEqual(t, math.Round(at*80), math.Round(x[0]*80), "no step: %s", line)
			}
			at = x[0]
			took += 60 / words(t, line, 'F')[0]
		}
		if p := words(t, line, 'P'); len(p) == 1 {
			took += p[0]
		}
	}
	require.InDelta(t, 60.5, took, 1e-4, "with the dwell before the motion")
	require.Equal(t, 40.0, at)
}

// BenchmarkWrite reports blocks written a second.
func BenchmarkWrite(b *testing.B) {
	tr := sample.Through(b)
	lines := strings.Count(text(b, tr, gcode.Options{Rounds: 2}), "G1") - strings.Count(text(b, tr, gcode.Options{Rounds: 1}), "G1")
	n := 0
	b.ReportAllocs()
	for b.Loop() {
		require.NoError(b, gcode.Write(io.Discard, tr, header.Of(tr.Plan(), verify.Verdict{OK: true}), gcode.Options{Rounds: 1000}))
		n += 1000 * lines
	}
	b.ReportMetric(float64(n)/b.Elapsed().Seconds()/1e6, "Mblocks/s")
}

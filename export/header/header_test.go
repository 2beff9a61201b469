package header_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/export/header"
	"seamrail/motion/plan/sample"
	"seamrail/motion/verify"
)

func TestLinesSayWhatTheFileIsMadeFrom(t *testing.T) {
	tr := sample.Long(t)
	lines := header.Of(tr.Plan(), verify.Check(tr)).Lines("test table")
	all := strings.Join(lines, "\n")
	require.Equal(t, "seamrail: test table", lines[0])
	for _, want := range []string{
		"shot: Fernhollow lantern (six panes), test", "rig: Test bench",
		"axis: rail in mm, 80 steps/mm, word X", "axis: table in deg, 10 steps/deg, word A",
		"clock: capture 23.976 (24000/1001)", "2400 timeline frames, 100.1 s on screen",
		"run-up: ", "plan: " + tr.Plan().Hash(), "checks: frames, limits, seam and steps passed", "caution: The table's belt",
	} {
		require.Contains(t, all, want)
	}
}

func TestFailedChecksAreNamed(t *testing.T) {
	v := verify.Verdict{Findings: []verify.Finding{
		{Axis: "rail", Text: "speed 500 mm/s"},
		{Axis: "rail", OK: true, Text: "travel in order"},
		{Text: "frames\nmissing"},
	}}
	all := strings.Join(header.Of(sample.Still(t).Plan(), v).Lines("x"), "\n")
	require.Contains(t, all, "checks: FAILED, written because it was forced\nfailed: rail speed 500 mm/s\nfailed: frames missing\n")
	require.NotContains(t, all, "travel in order")
	v.Fails, v.Unknown = []string{"focus", "flicker"}, []string{"torque"}
	require.Contains(t, strings.Join(header.Of(sample.Still(t).Plan(), v).Lines("x"), "\n"), "\nwill not do: focus, flicker\nnot known: torque")
}

func TestNoRunUpLineAtRest(t *testing.T) {
	tr := sample.Still(t)
	require.NotContains(t, strings.Join(header.Of(tr.Plan(), verify.Verdict{}).Lines("x"), "\n"), "run-up")
}

func TestWriteMarksEveryLine(t *testing.T) {
	require.Equal(t, "#!\n# a\n# b\n", string(header.Write([]byte("#!\n"), "# ", []string{"a", "b"})))
}

// A title must not be able to end a comment and begin a row.
func TestCleanKeepsToOneLine(t *testing.T) {
	for in, want := range map[string]string{
		"a\nb":           "a b",
		"a\r\n\tb\x00c ": "a b c",
		"a\u2028b\u0085": "a b",
		"käfer °²":       "käfer °²",
		"bad\xffbyte":    "bad\ufffdbyte",
	} {
		require.Equal(t, want, header.Clean(in))
	}
}

package rigsreport_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/export/report/rigsreport"
	"seamrail/motion/plan/judge"
	"seamrail/motion/plan/loopsearch"
	"seamrail/motion/plan/sample"
	"seamrail/motion/spec/shot"
)

const lantern = `shot = "Fernhollow lantern"
[clock]
capture = "120"
playback = "24"
loop = "97 frames"
[rig]
file = "r.toml"
[axis.rail]
from = "40 mm"
to = "100 mm"
`

// found is a loop that was found.
func found(t *testing.T, law string, strain float64) *loopsearch.Found {
	t.Helper()
	s, err := shot.Decode("lantern.toml", []byte(lantern), nil)
	require.NoError(t, err)
	return &loopsearch.Found{Shot: s, Law: law, Strain: strain}
}

// several is a shot on rigs that take it in every way there is.
func several(t *testing.T) rigsreport.Data {
	t.Helper()
	ready := judge.Headline{Stamp: "READY", Words: "The loop closes and the rig can do it."}
	barred := judge.Headline{Tone: judge.Barred, Stamp: "NOT READY", Words: "The move asks for more than the rig can do, in 1 place."}
	loops := loopsearch.Answer{Quickest: found(t, "cycloidal", .9), Gentlest: found(t, "3-4-5", .2), Tried: 120}
	return rigsreport.Data{Title: "Fernhollow lantern", Rigs: []rigsreport.Rig{
		{File: "bench.toml", Name: "Bench rail and table", Verdict: ready, Answer: loops, Command: "seamrail plan lantern.toml --rig bench.toml"},
		{File: "alone.toml", Name: "Rail alone", Lacks: []string{"table"}, Remains: "the there-and-back of rail, and the product then shows one face",
			Verdict: barred, Fits: []string{"would fit: a loop of 7.2 s"}, Answer: loops, Command: "seamrail plan lantern.toml --rig alone.toml --without table"},
		{File: "slow.toml", Name: "Slow rail", Verdict: barred, Answer: loopsearch.Answer{Tried: 96}, Command: "seamrail plan lantern.toml --rig slow.toml"},
		{File: "plain.toml", Name: "No camera known", Verdict: ready, Unasked: "the shot says nothing of camera and scene", Command: "seamrail plan lantern.toml --rig plain.toml"},
		{File: "lift.toml", Name: "A lift", Lacks: []string{"rail", "table"}, Fault: "axis rail: is not on the rig"},
		{File: "turned.toml", Name: "All in degrees", Fault: "lantern.toml:9:8: axis rail: from 40 mm must be an angle", Command: "seamrail plan lantern.toml --rig turned.toml"},
	}}
}

func TestGolden(t *testing.T) {
	var b strings.Builder
	require.NoError(t, report.Text(&b, several(t).Report(), false))
	for line := range strings.Lines(b.String()) {
		assert.LessOrEqual(t, len([]rune(strings.TrimSuffix(line, "\n"))), report.Width, line)
	}
	sample.Golden(t, "several.txt", b.String())
	b.Reset()
	require.NoError(t, report.JSON(&b, several(t).Facts()))
	sample.Golden(t, "several.json", b.String())
}

// A rig on which nothing holds, in no loop, is told from one that holds in another.
func TestWhatHolds(t *testing.T) {
	var out rigsreport.Document
	var b strings.Builder
	require.NoError(t, report.JSON(&b, several(t).Facts()))
	require.NoError(t, json.Unmarshal([]byte(b.String()), &out))
	for i, want := range []bool{true, true, false, true, false, false} {
		assert.Equal(t, want, out.Rigs[i].Holds, out.Rigs[i].Name)
		assert.Equal(t, want, several(t).Rigs[i].Holds(), out.Rigs[i].Name)
	}
	assert.Equal(t, "seamrail plan lantern.toml --rig alone.toml --without table --loop \"97 frames\" --law cycloidal", out.Rigs[1].Quickest.Command)
	assert.Nil(t, out.Rigs[5].Verdict)
}

// Two rigs that are called alike, as copies of one file are, are told apart by their files.
func TestRigsThatAreCalledAlike(t *testing.T) {
	d := several(t)
	d.Rigs[1].Name = d.Rigs[0].Name
	var b strings.Builder
	require.NoError(t, report.Text(&b, d.Report(), false))
	for _, want := range []string{"Bench rail and table, bench.toml", "Bench rail and table, alone.toml"} {
		assert.Equal(t, 1, strings.Count(b.String(), want), want)
	}
	assert.NotContains(t, b.String(), "Slow rail, ")
}

package planreport_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/export/report/planreport"
	"seamrail/motion/plan"
	"seamrail/motion/plan/judge"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
)

var update = flag.Bool("update", false, "write the golden files anew")

// columns is the width of a terminal that has not been widened.
const columns = 80

// cases are the shots in testdata and what would fit instead.
var cases = map[string][]string{
	"reveal":  nil,                                 // ready, rail and table
	"rushed":  {"would fit: a loop of 106 frames"}, // breaks limits
	"keys":    nil,                                 // uneven cadence, handles too long, an axis that holds
	"by-hand": nil,                                 // set and started by hand
	"stand":   nil,                                 // a stand that the loop does not close on: a caution
	"pair":    nil,                                 // two stands, one beyond a stated bound; strobe
}

func load(t *testing.T, name string) (*trajectory.Trajectory, verify.Verdict) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("testdata", name+".toml"))
	require.NoError(t, err)
	s, err := shot.Decode(name+".toml", data, nil)
	require.NoError(t, err)
	p, err := plan.Build(s, *s.Rig)
	require.NoError(t, err)
	tr := trajectory.New(p)
	shots[tr] = s
	return tr, verify.Check(tr)
}

// shots are those that have been loaded, by what was made of them.
var shots = map[*trajectory.Trajectory]shot.Shot{}

// judged adds to the options what is made of the rest of them: the other verdicts
// and the headline.
func judged(tr *trajectory.Trajectory, v verify.Verdict, opt planreport.Data) planreport.Data {
	opt.Plan, opt.Verified = tr.Plan(), v
	c := judge.Case{
		Shot: shots[tr], Rig: tr.Rig(), Plan: tr.Plan(), Verified: v,
		Picture: opt.Picture, Shakes: opt.Shakes, Controller: opt.Controller, Pending: opt.Controller == nil,
	}
	opt.Others = c.Verdicts()
	opt.Headline = c.Headline(opt.Others)
	return opt
}

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.WriteFile(path, got, 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(want), string(got))
}

func TestGolden(t *testing.T) {
	for name, fits := range cases {
		t.Run(name, func(t *testing.T) {
			tr, v := load(t, name)
			var text, short, doc bytes.Buffer
			opt := planreport.Data{Fits: fits}
			require.NoError(t, report.Text(&short, judged(tr, v, opt).Brief(), false))
			require.NoError(t, report.Text(&text, judged(tr, v, opt).Report(), false))
			require.NoError(t, report.JSON(&doc, judged(tr, v, opt).Facts()))
			golden(t, name+".txt", text.Bytes())
			golden(t, name+".short.txt", short.Bytes())
			golden(t, name+".json", doc.Bytes())
		})
	}
}

func TestLinesFitTheTerminalAndHoldNoCommands(t *testing.T) {
	for name, fits := range cases {
		tr, v := load(t, name)
		var b bytes.Buffer
		require.NoError(t, report.Text(&b, judged(tr, v, planreport.Data{Fits: fits}).Report(), false))
		assert.NotContains(t, b.String(), "\x1b", "the title of %s has one", name)
		for _, line := range strings.Split(b.String(), "\n") {
			assert.LessOrEqual(t, utf8.RuneCountInString(line), columns, line)
			assert.Equal(t, strings.TrimRight(line, " "), line)
		}
	}
}

// TestColourChangesNoWords takes the colours off again. The bars are drawn
// with other characters.
func TestColourChangesNoWords(t *testing.T) {
	tr, v := load(t, "rushed")
	var plain, colour bytes.Buffer
	require.NoError(t, report.Text(&plain, judged(tr, v, planreport.Data{}).Report(), false))
	require.NoError(t, report.Text(&colour, judged(tr, v, planreport.Data{}).Report(), true))
	var out strings.Builder
	for i, part := range strings.Split(colour.String(), "\x1b[") {
		if i > 0 {
			_, part, _ = strings.Cut(part, "m")
		}
		out.WriteString(part)
	}
	bare := strings.NewReplacer("━", "#", "─", ".").Replace(out.String())
	assert.Equal(t, plain.String(), bare)
}

func TestJSONReadsBack(t *testing.T) {
	tr, v := load(t, "rushed")
	var b bytes.Buffer
	require.NoError(t, report.JSON(&b, judged(tr, v, planreport.Data{}).Facts()))
	d := json.NewDecoder(&b)
	d.DisallowUnknownFields()
	var doc planreport.Document
	require.NoError(t, d.Decode(&doc))
	assert.Equal(t, planreport.Schema, doc.Schema)
	assert.Equal(t, tr.Plan().Hash(), doc.Plan)
	assert.False(t, doc.Verdict.Ready)
	assert.Len(t, doc.Verdict.Breaches, len(tr.Plan().Breaches()))
	assert.True(t, doc.Loop.Real.Equal(tr.Period()))
	assert.Len(t, doc.Axes, tr.AxisCount())
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestWriterErrorsComeBack(t *testing.T) {
	tr, v := load(t, "reveal")
	assert.ErrorContains(t, report.Text(full{}, judged(tr, v, planreport.Data{}).Report(), false), "disk full")
	assert.ErrorContains(t, report.JSON(full{}, judged(tr, v, planreport.Data{}).Facts()), "disk full")
}

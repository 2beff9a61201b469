package shakereport_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/export/report/shakereport"
	"seamrail/motion/plan"
	"seamrail/motion/spec/shot"
	"seamrail/motion/vibration/survey"
)

var update = flag.Bool("update", false, "rewrite the golden files")

const lantern = `shot = "Fernhollow lantern, knocked at"
[clock]
capture = "120"
playback = "24"
loop = "60 frames"
[axis.rail]
from = "40 mm"
to = "70 mm"
dwell-far = "20 frames"
[rig]
rig = "Bench rail"
[rig.axis.rail]
travel = ["0 mm", "400 mm"]
speed = "800 mm/s"
acceleration = "12000 mm/s2"
steps = "80 per mm"
shake = { frequency = "6 Hz", damping = "3 %", uncertainty = "0.05 Hz" }
`

// data surveys the lantern, or a text of it that was changed.
func data(t *testing.T, old, by string) shakereport.Data {
	t.Helper()
	require.Contains(t, lantern, old)
	s, err := shot.Decode("s", []byte(strings.Replace(lantern, old, by, 1)), nil)
	require.NoError(t, err)
	p, err := plan.Build(s, *s.Rig)
	require.NoError(t, err)
	a := &p.Axes[0]
	return shakereport.Data{
		Title: p.Title, Rig: p.Rig.Name, Source: "the rig file", PerUnit: 12,
		Survey: survey.Look(survey.Of(p, a), a.Rig.Shake),
	}
}

func text(t *testing.T, d shakereport.Data) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, report.Text(&b, d.Report(), false))
	return b.String()
}

func document(t *testing.T, d shakereport.Data) (shakereport.Document, []byte) {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, report.JSON(&b, d.Facts()))
	var out shakereport.Document
	require.NoError(t, json.Unmarshal(b.Bytes(), &out))
	return out, b.Bytes()
}

func TestGolden(t *testing.T) {
	d := data(t, "6 Hz", "6 Hz")
	_, doc := document(t, d)
	for name, got := range map[string]string{"lantern.txt": text(t, d), "lantern.json": string(doc)} {
		path := filepath.Join("testdata", name)
		if *update {
			require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, string(want), got)
	}
}

// The document says what the survey found, and every frame of it.
func TestTheDocumentIsTheSurvey(t *testing.T) {
	d := data(t, "6 Hz", "6 Hz")
	doc, _ := document(t, d)
	assert.Equal(t, shakereport.Schema, doc.Schema)
	assert.InDelta(t, d.Own.Left, doc.Move.Left, 1e-4)
	assert.Len(t, doc.Frames, 60)
	assert.Equal(t, int64(60), doc.Captured)
	assert.Equal(t, int64(1), doc.Every)
	assert.Len(t, doc.Laws, 9)
	assert.Len(t, doc.Shapers, 2)
	assert.Equal(t, len(d.Loops), len(doc.Loops))
	assert.Contains(t, doc.Words, "On so short a move")
	assert.Nil(t, doc.Laws[0].Acc, "the uniform law has no bound")
	for _, o := range doc.Dwells {
		assert.NotNil(t, o.Dwell)
	}
}

func TestWhereNothingCanBeTold(t *testing.T) {
	d := data(t, "6 Hz", "6 Hz")
	d.Measured.Spring.Damping = 0
	d.Measured.Spring.Frequency = 8 // four whole swings a round
	d.Survey = survey.Look(d.Subject, d.Measured)
	assert.Contains(t, text(t, d), "nothing damps it")
	doc, _ := document(t, d)
	assert.Nil(t, doc.Move)
	assert.Contains(t, doc.Words, "nothing damps it")
}

func TestMovesWithoutALaw(t *testing.T) {
	d := data(t, "from = \"40 mm\"\nto = \"70 mm\"\ndwell-far = \"20 frames\"\n",
		"keys = [{ at = \"0 frames\", pos = \"1 mm\" }, { at = \"30 frames\", pos = \"9 mm\" }]\n")
	page := text(t, d)
	assert.NotContains(t, page, "LAWS")
	assert.NotContains(t, page, "BEST FIRST")
	assert.Contains(t, page, "SHAPED")
	doc, _ := document(t, d)
	assert.Empty(t, doc.Laws)
	assert.NotNil(t, doc.Loops)
}

func TestLinesFitTheTerminal(t *testing.T) {
	for _, by := range []string{"6 Hz", "1.7 Hz", "47 Hz", "14 Hz"} {
		for line := range strings.Lines(text(t, data(t, "6 Hz", by))) {
			assert.LessOrEqual(t, len([]rune(strings.TrimSuffix(line, "\n"))), 80, line)
		}
	}
}

func TestColourChangesNoWords(t *testing.T) {
	d := data(t, "6 Hz", "6 Hz")
	var b bytes.Buffer
	require.NoError(t, report.Text(&b, d.Report(), true))
	plain := b.String()
	for _, code := range []string{"0", "1", "2", "31", "33", "1;36"} {
		plain = strings.ReplaceAll(plain, "\x1b["+code+"m", "")
	}
	want := text(t, d)
	assert.Equal(t, strings.Join(strings.Fields(want), " "), strings.Join(strings.Fields(plain), " "))
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestWriterErrorsComeBack(t *testing.T) {
	d := data(t, "6 Hz", "6 Hz")
	assert.ErrorContains(t, report.Text(full{}, d.Report(), false), "disk full")
	assert.ErrorContains(t, report.JSON(full{}, d.Facts()), "disk full")
}

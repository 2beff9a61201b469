package planreport_test

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/export/report/planreport"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/picture"
	"seamrail/motion/spec/shot"
)

// pictured is a macro lens that pushes in on the lantern, with a lamp that is not
// enough and much that is not said.
func pictured(t *testing.T) (text, doc []byte, seen picture.Report) {
	t.Helper()
	tr, v := load(t, "pictured")
	data, err := os.ReadFile(filepath.Join("testdata", "pictured.toml"))
	require.NoError(t, err)
	s, err := shot.Decode("pictured.toml", data, nil)
	require.NoError(t, err)
	r, err := lensview.Examine(tr, s)
	require.NoError(t, err)
	var a, b bytes.Buffer
	require.NoError(t, report.Text(&a, judged(tr, v, planreport.Data{Picture: r}).Report(), false))
	require.NoError(t, report.JSON(&b, judged(tr, v, planreport.Data{Picture: r}).Facts()))
	return a.Bytes(), b.Bytes(), *r
}

func TestPictureGolden(t *testing.T) {
	text, doc, _ := pictured(t)
	_, part, found := strings.Cut(string(text), "\nPICTURE\n")
	require.True(t, found)
	part, _, _ = strings.Cut(part, "\n\n")
	golden(t, "pictured.txt", []byte(part+"\n"))
	var d planreport.Document
	require.NoError(t, json.Unmarshal(doc, &d))
	again, err := json.MarshalIndent(d.Picture, "", "  ")
	require.NoError(t, err)
	golden(t, "pictured.json", append(again, '\n'))
	assert.Contains(t, string(text), "2 points will not do:\n            focus, light.")
	for line := range strings.Lines(string(text)) {
		assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), columns, line)
	}
}

// Every check of the picture is in both reports with its numbers, and what one
// number lacks is told once, among the doubts and there.
func TestPictureIsAllThere(t *testing.T) {
	text, doc, seen := pictured(t)
	var d planreport.Document
	require.NoError(t, json.Unmarshal(doc, &d))
	require.NotNil(t, d.Picture)
	assert.Equal(t, seen.Worst().String(), d.Picture.Worst)
	require.Len(t, d.Picture.Checks, len(seen.Verdicts))
	short, long, found := strings.Cut(strings.Join(strings.Fields(string(text)), " "), " PICTURE ")
	require.True(t, found)
	for i, v := range seen.Verdicts {
		c := d.Picture.Checks[i]
		assert.Equal(t, []any{v.Check, v.Level.String(), v.Text, v.Paced}, []any{c.Check, c.Level, c.Words, c.Paced})
		assert.Len(t, c.Figures, len(v.Figures))
		for k, f := range v.Figures {
			require.NotNil(t, c.Figures[k].Value, "%s of %s", f.Name, v.Check)
			assert.InDelta(t, f.Value, *c.Figures[k].Value, 1e-5*math.Abs(f.Value))
		}
		if v.Level != picture.Unknown {
			assert.Contains(t, long, v.Text[:20], v.Check)
		}
		for _, m := range v.Missing {
			assert.Equal(t, 1, strings.Count(short, " "+m+" ("), m)
			assert.Equal(t, 1, strings.Count(long, " "+m+" ("), m)
		}
	}
}

func TestNoPictureNoWords(t *testing.T) {
	tr, v := load(t, "pictured")
	var text, doc bytes.Buffer
	require.NoError(t, report.Text(&text, judged(tr, v, planreport.Data{}).Report(), false))
	require.NoError(t, report.JSON(&doc, judged(tr, v, planreport.Data{}).Facts()))
	assert.NotContains(t, text.String(), "PICTURE")
	assert.NotContains(t, doc.String(), `"picture"`)
}

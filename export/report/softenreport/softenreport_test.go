package softenreport_test

import (
	"bytes"
	"encoding/json"
	"io"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/export/report/softenreport"
	"seamrail/motion/plan/sample"
	"seamrail/motion/spec/shot"
	"seamrail/motion/vibration/lawfit"
	"seamrail/motion/vibration/spring"
)

const lantern = `shot = "Lantern\u001b[2J, slow reveal"
[clock]
capture = "120"
playback = "24"
loop = "6 s"
[rig]
rig = "bench"
[rig.axis.rail]
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3 m/s2"
jerk = "60000 mm/s3"
steps = "80 per mm"
[axis.rail]
from = "40 mm"
to = "100 mm"
`

func data(t *testing.T, hertz, share float64) softenreport.Data {
	t.Helper()
	s, err := shot.Decode("f", []byte(lantern), nil)
	require.NoError(t, err)
	sub, err := lawfit.New(s, *s.Rig, "rail")
	require.NoError(t, err)
	sub.Share = share
	if hertz > 0 {
		sub.Spring = spring.Spring{Frequency: hertz, Damping: 0.03}
	}
	return softenreport.Data{Title: s.Title, Subject: sub, Offers: sub.Offers()}
}

func written(t *testing.T, write func(io.Writer) error) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, write(&b))
	return b.String()
}

func text(t *testing.T, d softenreport.Data) string {
	return written(t, func(w io.Writer) error { return report.Text(w, d.Report(), false) })
}

func TestGolden(t *testing.T) {
	d := data(t, 6, 0.8)
	sample.Golden(t, "lantern.txt", text(t, d))
	sample.Golden(t, "lantern.json", written(t, func(w io.Writer) error { return report.JSON(w, d.Facts()) }))
}

func TestTextFits(t *testing.T) {
	for _, d := range []softenreport.Data{data(t, 6, 1), data(t, 0, 0.1), data(t, 1, 1)} {
		got := text(t, d)
		assert.NotContains(t, got, "\x1b")
		for _, l := range strings.Split(got, "\n") {
			assert.LessOrEqual(t, utf8.RuneCountInString(l), 80, l)
			assert.Equal(t, strings.TrimRight(l, " "), l)
		}
	}
	assert.Contains(t, text(t, data(t, 0, 0.1)), "none: the travel is too far for the limits")
}

func TestColourChangesNoWords(t *testing.T) {
	d := data(t, 6, 1)
	coloured := written(t, func(w io.Writer) error { return report.Text(w, d.Report(), true) })
	var bare strings.Builder
	for i, part := range strings.Split(coloured, "\x1b[") {
		if i > 0 {
			_, part, _ = strings.Cut(part, "m")
		}
		bare.WriteString(part)
	}
	assert.Equal(t, text(t, d), bare.String())
}

// The JSON holds what the offers do, and null where there is nothing.
func TestJSON(t *testing.T) {
	d := data(t, 0, 1)
	var doc softenreport.Document
	require.NoError(t, json.Unmarshal([]byte(written(t, func(w io.Writer) error { return report.JSON(w, d.Facts()) })), &doc))
	require.Len(t, doc.Laws, len(d.Offers))
	for i, l := range doc.Laws {
		o := d.Offers[i]
		assert.Equal(t, o.Aim, l.Least)
		assert.Nil(t, l.Left)
		if o.Name == "" {
			assert.Nil(t, l.Acc)
			assert.NotEmpty(t, l.Words)
			continue
		}
		assert.InEpsilon(t, o.Acc, *l.Acc, 1e-8)
		assert.Len(t, l.Keys, len(o.Keys))
	}
	assert.Nil(t, doc.Laws[0].Bound)
	assert.False(t, math.IsNaN(*doc.Laws[1].Bound))
}

func TestWritersThatFail(t *testing.T) {
	d := data(t, 0, 1)
	require.ErrorIs(t, report.Text(&sample.Broken{}, d.Report(), false), sample.ErrFull)
	require.ErrorIs(t, report.JSON(&sample.Broken{}, d.Facts()), sample.ErrFull)
}

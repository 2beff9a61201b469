package captions_test

import (
	"bytes"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/export/cue/captions"
	"seamrail/motion/cue"
	"seamrail/motion/plan/sample"
)

var about = []string{"cues as captions", "shot: an arrow --> and\na second line", ""}

func written(t testing.TB, take cue.Take) string {
	var out bytes.Buffer
	require.NoError(t, captions.Write(&out, take, about))
	return out.String()
}

func TestCaptions(t *testing.T) {
	text := written(t, sample.Cued(t, sample.TwoHands, 2))
	assert.True(t, strings.HasPrefix(text, "WEBVTT\n\nNOTE\ncues as captions\nshot: an arrow -> and a second line\n\n"), text)
	assert.Contains(t, text, "00:00:00.000 --> 00:00:01.000\nCount-in: 3\n\n")
	assert.Contains(t, text, "00:00:03.000 --> 00:00:03.500\nCount-in: it moves\n\n")
	assert.Contains(t, text, "pebble &lt;small&gt;, right hand, round 2: <b>NOW</b>\n\n")
	assert.Contains(t, text, "petal --&gt; cup, left hand, round 2: <b>NOW</b>\n\n")
	// The round is 1.2012 s and the pebble falls 0.247350 s, so it is told at
	// 0.6006 - 0.24735 s of the round; a run-up lies before frame 0.
	take := sample.Cued(t, sample.TwoHands, 2)
	runUp := float64(take.Plan.RunUp) * 1001 / 120000
	assert.Contains(t, text, stamp(3+runUp+0.6006-0.24735)+" --> "+stamp(3+runUp+0.6006-0.24735+0.5)+"\npebble")
}

// stamp is a time below a minute as WebVTT writes it.
func stamp(sec float64) string {
	ms := int(sec*1000 + 0.5)
	return "00:00:" + string([]byte{byte('0' + ms/10000), byte('0' + ms/1000%10), '.', byte('0' + ms/100%10), byte('0' + ms/10%10), byte('0' + ms%10)})
}

// After an hour there are hours.
func TestHours(t *testing.T) {
	text := written(t, sample.Cued(t, "[[cue]]\nname = \"a\"\nat = \"60 frames\"\nrounds = 4000\n", 4000))
	assert.Contains(t, text, "01:20:0")
}

// Whatever a cue and a hand are called, each caption is a line of times and a
// line of text, and no text is taken for times or for a tag.
func TestAnyName(t *testing.T) {
	take := sample.Cued(t, sample.TwoHands, 2)
	rapid.Check(t, func(rt *rapid.T) {
		take.Cues[0].Name = rapid.String().Draw(rt, "name") + rapid.SampledFrom([]string{"", "\n\n", "-->", "<b>", "&lt;"}).Draw(rt, "and")
		take.Cues[1].Hand = rapid.String().Draw(rt, "hand")
		var out bytes.Buffer
		require.NoError(rt, captions.Write(&out, take, nil))
		blocks := strings.Split(strings.TrimSuffix(out.String(), "\n\n"), "\n\n")
		n := 0
		for range take.Beats() {
			n++
		}
		require.Len(rt, blocks, n+2, "a head, a note, and a block a beat")
		for _, b := range blocks[2:] {
			times, text, _ := strings.Cut(b, "\n")
			assert.Regexp(rt, `^\d\d:\d\d:\d\d\.\d{3} --> \d\d:\d\d:\d\d\.\d{3}$`, times)
			text = strings.ReplaceAll(strings.ReplaceAll(text, "<b>NOW</b>", ""), "\r", "?")
			assert.False(rt, strings.ContainsAny(text, "<>\n"), text)
		}
	})
}

func TestWriteErrors(t *testing.T) {
	take := sample.Cued(t, sample.TwoHands, 300)
	sample.Fails(t, len(written(t, take)), func(w io.Writer) error { return captions.Write(w, take, about) })
}

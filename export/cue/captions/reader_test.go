package captions_test

import (
	"encoding/json"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/cue"
	"seamrail/motion/plan/sample"
)

// parserVariable names a folder in which npm has installed webvtt-parser, the
// conformance checker of the W3C, with which the captions are then read back.
const parserVariable = "SEAMRAIL_WEBVTT"

const readBack = `
const { WebVTTParser } = require(process.argv[1] + "/node_modules/webvtt-parser");
const text = require("fs").readFileSync(0, "utf8");
const read = new WebVTTParser().parse(text, "subtitles/captions/descriptions");
console.log(JSON.stringify({ errors: read.errors, cues: read.cues.map(c => ({ start: c.startTime, end: c.endTime, text: c.text })) }));
`

func TestReaderWebVTT(t *testing.T) {
	folder := os.Getenv(parserVariable)
	if folder == "" {
		t.Skip("set " + parserVariable + " to read the captions back with a published parser")
	}
	take := sample.Cued(t, sample.TwoHands, 4)
	c := exec.Command("node", "-e", readBack, folder)
	c.Stdin = strings.NewReader(written(t, take))
	out, err := c.Output()
	require.NoError(t, err)
	var read struct {
		Errors []map[string]any
		Cues   []struct {
			Start, End float64
			Text       string
		}
	}
	require.NoError(t, json.Unmarshal(out, &read))
	require.Empty(t, read.Errors)
	i := 0
	for b := range take.Beats() {
		require.InDelta(t, b.At.Float(), read.Cues[i].Start, 0.0005+1e-9)
		require.Greater(t, read.Cues[i].End, read.Cues[i].Start)
		if b.Cue != cue.CountIn {
			require.Equal(t, b.Left == 0, strings.Contains(read.Cues[i].Text, "NOW"))
		}
		i++
	}
	require.Len(t, read.Cues, i)
}

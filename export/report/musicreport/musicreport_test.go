package musicreport_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/export/report/musicreport"
	"seamrail/motion/spec/shot"
)

func told(t *testing.T, clock, music string) (string, *musicreport.Music) {
	s, err := shot.Decode("lamp.toml", []byte("shot = \"Lamp\"\n[clock]\nplayback = \"24\"\n"+clock+"\n"+music+"\n[rig]\nfile = \"bench.toml\"\n[axis.rail]\nfrom = \"1 mm\"\nto = \"2 mm\"\n"), nil)
	require.NoError(t, err)
	r := report.Report{Title: "Lamp"}
	musicreport.Section(&r, s.Music, &s.Loop)
	var b strings.Builder
	require.NoError(t, report.Text(&b, r, false))
	return strings.Join(strings.Fields(b.String()), " "), musicreport.Of(s.Music, &s.Loop)
}

// At 100 a minute ten beats are 144 frames of a 24th of a second, eleven are 158.4 and
// twelve 172.8.
func TestALoopInBeats(t *testing.T) {
	text, facts := told(t, `loop = "10 beats"`, "[music]\ntempo = 100")
	assert.Contains(t, text, "10 beats last 6 s, 144 frames; the loop has 144 exactly: it keeps with the music")
	assert.Zero(t, facts.Loop.Late)

	text, facts = told(t, `loop = "11 beats"`, "[music]\ntempo = 100")
	assert.Contains(t, text, "158.4 frames; the loop has 158 each round is 16.7 ms shorter than the music")
	assert.InDelta(t, -0.4/24, facts.Loop.Late, 1e-6)
	assert.Equal(t, "7920/79", facts.Loop.Exact.String(), "11 * 60 * 24 / 158")

	// What is told is what to write: a decimal of it would be off again, if by little.
	assert.Contains(t, text, "at 100.253 (7920/79) beats a minute it would be exact")
	text, _ = told(t, `loop = "11 beats"`, "[music]\ntempo = \"7920/79\"")
	assert.Contains(t, text, "the loop has 158 exactly: it keeps with the music")
	text, _ = told(t, `loop = "11 beats"`, "[music]\ntempo = 100.253")
	assert.Contains(t, text, "each round is less than 0.1 ms shorter than the music")

	text, facts = told(t, `loop = "12 beats"`, "[music]\ntempo = 100")
	assert.Contains(t, text, "the loop has 173 each round is 8.3 ms longer than the music")
	assert.InDelta(t, 0.2/24, facts.Loop.Late, 1e-6)
}

func TestNothingIsSaidWhereThereIsNoMusic(t *testing.T) {
	text, facts := told(t, `loop = "144 frames"`, "")
	assert.Equal(t, "Lamp", text)
	assert.Nil(t, facts)
	text, facts = told(t, `loop = "144 frames"`, "[music]\ntempo = 100")
	assert.Contains(t, text, "BEATS AND MARKERS tempo 100 beats a minute; beat 1 at 0 s")
	assert.NotContains(t, text, "loop")
	assert.Nil(t, facts.Loop)
	assert.Empty(t, facts.Spots)
}

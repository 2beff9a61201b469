package sequencereport_test

import (
	"encoding/json"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/export/report/sequencereport"
	"seamrail/motion/base/exact"
	"seamrail/motion/edit/selects"
	"seamrail/motion/edit/sequence"
	"seamrail/motion/edit/timeline"
	"seamrail/motion/plan"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
)

const across = `shot = "Across the lantern"
[clock]
capture = "120"
playback = "24"
loop = "48 frames"
[rig]
rig = "Bench rail"
[rig.axis.rail]
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
steps = "80 per mm"
[axis.rail]
from = "100 mm"
to = "140 mm"
law = "harmonic"
`

const seen = across + `[camera]
magnification = "1:5"
pitch = "5 um"
pixels-wide = 4000
[scene.axis.rail]
heading = "left"
measured-at = "120 mm"
`

func data(t testing.TB, text string) sequencereport.Data {
	t.Helper()
	s, err := sequence.Decode("clip.toml", []byte(text), nil)
	require.NoError(t, err)
	var planned []sequence.Planned
	for _, e := range s.Entries {
		text := seen
		if e.File == "blind.toml" {
			text = across
		}
		one, err := shot.Decode(e.File, []byte(text), nil)
		require.NoError(t, err)
		p, err := plan.Build(one, *one.Rig)
		require.NoError(t, err)
		planned = append(planned, sequence.Planned{Shot: one, Trajectory: trajectory.New(p)})
	}
	c, err := sequence.Join(s, planned)
	require.NoError(t, err)
	d := sequencereport.Data{Clip: c, Defaults: s.Defaults}
	d.Proposals, err = c.Propose()
	require.NoError(t, err)
	footage := make([]timeline.Footage, len(c.Pieces))
	for i := range footage {
		footage[i] = timeline.Footage{Rounds: c.Pieces[i].Trajectory.Rounds()}
		if i%2 == 0 {
			footage[i].Take, footage[i].Notes, footage[i].Off = 2, []string{"steam just right"}, []selects.Off{{Axis: "rail", Unit: "mm", Value: -0.0123}}
		}
	}
	tl, err := timeline.Of(c, footage)
	require.NoError(t, err)
	d.Timeline = &tl
	return d
}

// whole has a cut of every kind, seen and not, and knows card and day.
const whole = `sequence = "Fernhollow lantern"
timecode = "01:00:00:00"
[card]
bitrate = "400 Mbit/s"
size = "2 GB"
[day]
rig-change = "90 min"
light-change = "10 min"
between-takes = "40 s"
[[shot]]
file = "across.toml"
length = "13 frames"
[[shot]]
file = "across.toml"
from = "36 frames"
length = "2.01 s"
takes = 9
[[shot]]
file = "across.toml"
from = "24 frames"
rounds = 2
light = "dusk"
[[shot]]
file = "blind.toml"
from = "6 frames"
length = "4 frames"
rig = "low"
[[shot]]
file = "across.toml"
from = "11 frames"
length = "1 frames"
rig = "low"
`

// bare states as little as it can.
const bare = "[[shot]]\nfile = \"across.toml\"\n"

func written(t *testing.T, d sequencereport.Data) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, report.Text(&b, d.Report(), false))
	for line := range strings.Lines(b.String()) {
		assert.LessOrEqual(t, len([]rune(strings.TrimSuffix(line, "\n"))), 80, line)
	}
	return b.String()
}

func TestMoreRoundsThanATakeHas(t *testing.T) {
	const words = "a take has 3 rounds, and the edit shows some again"
	flat := func(text string) string { return strings.Join(strings.Fields(text), " ") }
	assert.Contains(t, flat(written(t, data(t, bare+"rounds = 4\n"))), words)
	assert.NotContains(t, flat(written(t, data(t, bare+"rounds = 3\n"))), words)
}

func TestGolden(t *testing.T) {
	d := data(t, whole)
	d.Troubles = []sequencereport.Trouble{{File: "blind.toml", Text: "the plan breaks 1 limit of the rig"}}
	sample.Golden(t, "whole.txt", written(t, d))
	sample.Golden(t, "bare.txt", written(t, data(t, bare)))
}

func TestColourIsOnlyColour(t *testing.T) {
	d := data(t, whole)
	var b strings.Builder
	require.NoError(t, report.Text(&b, d.Report(), true))
	assert.Equal(t, 2*strings.Count(b.String(), "\x1b[0m"), strings.Count(b.String(), "\x1b["))
	assert.Equal(t, strings.Count(written(t, d), "\n"), strings.Count(b.String(), "\n"))
}

func TestJSON(t *testing.T) {
	d := data(t, whole)
	var b strings.Builder
	require.NoError(t, report.JSON(&b, d.Facts()))
	var out sequencereport.Document
	require.NoError(t, json.Unmarshal([]byte(b.String()), &out))
	assert.Equal(t, sequencereport.Schema, out.Schema)
	assert.EqualValues(t, 13+48+96+4+1, out.Frames)
	assert.True(t, out.Screen.Equal(exact.New(162, 24)))
	assert.Equal(t, []string{"01:00:00:00", "01:00:06:17"}, []string{out.First, out.Last})
	require.Len(t, out.Pieces, 5)
	assert.Equal(t, sequencereport.Piece{File: "across.toml", Title: "Across the lantern", Label: "01:00:00:13", Start: 13, From: 36, Frames: 48, Loop: 48}, out.Pieces[1])
	require.Len(t, out.Cuts, 5)
	assert.Equal(t, []any{"reverses", true, 180.0, 1.0}, []any{out.Cuts[0].Momentum, out.Cuts[0].Seen, out.Cuts[0].Angle, out.Cuts[0].Pace})
	assert.Equal(t, out.Cuts[0].Out.Flow.Right, -out.Cuts[0].In.Flow.Right)
	assert.Empty(t, out.Cuts[0].Lacks)
	assert.Equal(t, []string{"camera and scene"}, out.Cuts[2].Lacks)
	assert.Nil(t, out.Cuts[2].In.Flow)
	assert.NotNil(t, out.Cuts[2].Out.Flow)
	require.Len(t, out.Films, 4)
	assert.Equal(t, d.Clip.Order.Order, out.Order.Films)
	assert.Equal(t, 9+3+3+3, out.Needs.Takes)
	assert.EqualValues(t, 2e9, *out.Needs.Card)
	assert.EqualValues(t, 5.2*50e6, *out.Films[0].Bytes)
	assert.NotContains(t, b.String(), "-0,")
	require.Len(t, out.Proposals, len(d.Proposals))
	assert.Equal(t, d.Proposals[0].Out, out.Proposals[0].Out)
	require.Len(t, out.Events, len(d.Timeline.Events))
	assert.Equal(t, []any{2, true, "ACROSS_2"}, []any{out.Events[0].Take, out.Events[0].Filmed, out.Events[0].Reel})
	assert.Equal(t, []any{1, false}, []any{out.Events[1].Take, out.Events[1].Filmed})
	assert.NotNil(t, out.Events[0].Loop)
	assert.False(t, out.Events[0].Shows)
	assert.Equal(t, "film", out.Films[0].Records)
	assert.Equal(t, "31/5", out.Films[0].Spent.All.String(), "a second of counting, the camera ahead, the rounds, the camera on")
	require.Len(t, out.Joins, len(out.Events))
	assert.Equal(t, "cut", out.Joins[0].Kind)
	assert.NotNil(t, out.Joins[0].Carry)
	assert.Nil(t, out.Joins[0].Off, "nothing was filmed of the second")

	b.Reset()
	require.NoError(t, report.JSON(&b, data(t, bare).Facts()))
	assert.Contains(t, b.String(), `"bytes": null`)
	assert.Contains(t, b.String(), `"troubles": []`)
}

func TestTheWritersErrorComesThrough(t *testing.T) {
	d := data(t, bare)
	assert.ErrorIs(t, report.Text(&sample.Broken{}, d.Report(), false), sample.ErrFull)
	assert.ErrorIs(t, report.JSON(&sample.Broken{}, d.Facts()), sample.ErrFull)
}

func BenchmarkWrite(b *testing.B) {
	d := data(b, whole)
	for b.Loop() {
		if err := report.Text(io.Discard, d.Report(), false); err != nil {
			b.Fatal(err)
		}
	}
}

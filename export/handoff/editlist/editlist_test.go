package editlist_test

import (
	"bytes"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/export/handoff/editlist"
	"seamrail/motion/base/exact"
	"seamrail/motion/edit/timeline"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/sample/many"
)

func of(t require.TestingT, text string, files map[string]string) timeline.Timeline {
	c := sample.Joined(t, text, files)
	footage := make([]timeline.Footage, len(c.Pieces))
	for i := range footage {
		footage[i] = timeline.Footage{Take: 2, Rounds: 3}
	}
	tl, err := timeline.Of(c, footage)
	require.NoError(t, err)
	return tl
}

func text(t require.TestingT, tl timeline.Timeline) string {
	var b bytes.Buffer
	require.NoError(t, editlist.Write(&b, tl))
	return b.String()
}

// whole has a cut, a dissolve, a seam that is dissolved, a speed, and the way round.
var whole = "sequence = \"Fernhollow, üb\"\ntimecode = \"01:00:00:00\"\n" +
	sample.Entry("a.toml", `from = "6 frames"`, `length = "30 frames"`) +
	sample.Entry("b.toml", `from = "10 frames"`, `length = "70 frames"`, `dissolve = "8 frames"`) +
	sample.Entry("half.toml", `from = "1 frames"`, `length = "31 frames"`, `dissolve = "6 frames"`)

func TestGolden(t *testing.T) {
	sample.Golden(t, "whole.edl", text(t, of(t, whole, sample.ClipFiles)))
}

// What a list says of a clip is what the clip has, as another program reads it: events
// follow on, the clip is as long as it is, and a dissolve stands where the two shots are
// both seen.
func TestReadBack(t *testing.T) {
	many.Check(t, 40, func(t *rapid.T) {
		holds(t, of(t, sample.AnyClip(t), sample.ClipFiles))
	})
}

// holds reads a list back and holds it against the clip.
func holds(t require.TestingT, tl timeline.Timeline) {
	got, err := read(text(t, tl), tl.Clip.Timecode.Nominal())
	require.NoError(t, err)
	require.Len(t, got.events, len(tl.Events))
	at := tl.Clip.Start
	for i, e := range got.events {
		want := tl.Events[i]
		require.Equal(t, i+1, e.number)
		require.Equal(t, at, e.recordIn, "no gap and nothing twice")
		at = e.recordOut
		require.Equal(t, want.Reel, e.reel)
		per := tl.Piece(want).Shot.Clock.PerScreen()
		var in int64
		if i > 0 {
			j := tl.Joins[i-1]
			in = j.In
			require.Equal(t, j.Length(), e.dissolve)
			if j.Length() > 0 {
				require.Equal(t, tl.Events[i-1].Reel, e.from)
				require.Equal(t, tl.Clip.Start+j.Frame-j.In, e.recordIn)
				require.LessOrEqual(t, e.dissolve, e.recordOut-e.recordIn)
			}
		}
		begins := want.First.Sub(exact.Int(in).Mul(per))
		require.Equal(t, begins.Floor().Whole(), e.sourceIn)
		ends := begins.Add(exact.Int(e.recordOut - e.recordIn).Mul(per))
		require.Equal(t, ends.Ceil().Whole(), e.sourceOut)
		if per.Equal(exact.Int(1)) {
			require.Equal(t, e.recordOut-e.recordIn, e.sourceOut-e.sourceIn)
			require.Zero(t, e.speed)
		} else {
			require.InDelta(t, per.Float()*24, e.speed, 0.05+1e-9)
		}
	}
	require.Equal(t, tl.Clip.Start+tl.Clip.Frames, at)
	require.Len(t, got.marks, len(tl.Marks))
	for i, m := range tl.Marks {
		require.Equal(t, tl.Clip.Start+m.Frame, got.marks[i])
	}
}

// played is the loop at another playback rate.
func played(rate string, lines ...string) map[string]string {
	text := strings.Replace(sample.Across, `playback = "24"`, "playback = \""+rate+"\"\nretime = 1", 1)
	text = strings.Replace(text, `capture = "120"`, `capture = "`+rate+`"`, 1)
	return map[string]string{"a.toml": strings.Replace(text, "[camera]", strings.Join(lines, "\n")+"\n[camera]", 1)}
}

// Each rate that the labels count, drop-frame where there is such, across a minute.
func TestRates(t *testing.T) {
	for rate, lines := range map[string]string{
		"23.976": "", "24": "", "25": "", "30": "", "29.97": "drop-frame = true\ntimecode = \"00:00:58;00\"\n",
	} {
		tl := of(t, lines+sample.Entry("a.toml", "rounds = 3")+sample.Entry("a.toml", `from = "12 frames"`), played(rate))
		holds(t, tl)
		mode := "FCM: NON-DROP FRAME\n"
		if lines != "" {
			mode = "FCM: DROP FRAME\n"
			assert.Contains(t, text(t, tl), "00:01:02;")
		}
		assert.Contains(t, text(t, tl), mode)
	}
}

// What goes out of a dissolve is of no length, part frames or not.
func TestPartFramesGoOut(t *testing.T) {
	tl := of(t, sample.Entry("half.toml", `from = "1 frames"`, `length = "32 frames"`, `dissolve = "8 frames"`)+sample.Entry("a.toml"), sample.ClipFiles)
	holds(t, tl)
	// 49 frames in, 28 on: captured frame 77/2, of a round of 24 frames the second.
	assert.Contains(t, text(t, tl), "002  HALF_2   V     C        00:00:01:14 00:00:01:14 ")
}

func TestSpeedsInWords(t *testing.T) {
	for retime, want := range map[string]string{"1": "AT REAL SPEED", "3": "AT 3 TIMES REAL SPEED", "1/10": "AT 1/10 OF REAL SPEED", "3/2": "AT 3/2 TIMES REAL SPEED"} {
		one := strings.Replace(sample.Across, "[camera]", "retime = \""+retime+"\"\n[camera]", 1)
		assert.Contains(t, text(t, of(t, sample.Entry("a.toml"), map[string]string{"a.toml": one})), "SHOWN "+want+"\n")
	}
}

func TestWhatDoesNotFit(t *testing.T) {
	for _, x := range []struct {
		text  string
		files map[string]string
		want  string
	}{
		{sample.Entry("a.toml"), played("120"), "a list of edits labels 24, 25 or 30 frames a second, drop-frame or not, and the clip plays at 120; timeline.otio holds any rate"},
		{sample.Entry("a.toml"), played("1/2"), "and the clip plays at 0.5;"},
		{sample.Entry("a.toml"), played("59.94"), "and the clip plays at 59.94 (60000/1001);"},
		{sample.Entry("a.toml"), played("24.5"), "and the clip plays at 24.5;"},
		{sample.Entry("b.toml", "rounds = 1000", `dissolve = "0 frames"`), sample.ClipFiles, "a list of edits holds 999 events, and the clip has 1000; cut the sequence in two"},
		{"timecode = \"23:59:59:00\"\n" + sample.Entry("a.toml"), sample.ClipFiles, "end at 24 hours, and the clip goes on to 00:00:01:00 of the next day"},
	} {
		tl := of(t, x.text, x.files)
		assert.ErrorContains(t, editlist.Unfit(tl), x.want)
		var b bytes.Buffer
		assert.ErrorContains(t, editlist.Write(&b, tl), x.want)
		assert.Zero(t, b.Len())
	}
	tl := of(t, sample.Entry("b.toml", "rounds = 999", `dissolve = "0 frames"`), sample.ClipFiles)
	assert.NoError(t, editlist.Unfit(tl))
	holds(t, tl)
	tl = of(t, sample.Entry("a.toml"), sample.ClipFiles)
	tl.Events[0].Reel = "S100_12345"
	assert.ErrorContains(t, editlist.Unfit(tl), `event 1, a.toml: the reel "S100_12345" has 10 characters, and a list of edits holds 8`)
	fast := strings.Replace(sample.Across, "[camera]", "retime = 9\n[camera]", 1)
	tl = of(t, sample.Entry("a.toml"), map[string]string{"a.toml": fast})
	assert.ErrorContains(t, editlist.Unfit(tl), "is played at 1080.0 frames/s, and a list of edits holds 999.9")
}

// A clip that ends on the last label of a day has that label's end as its first.
func TestTheEndOfADay(t *testing.T) {
	tl := of(t, "timecode = \"23:59:58:00\"\n"+sample.Entry("a.toml"), sample.ClipFiles)
	require.NoError(t, editlist.Unfit(tl))
	assert.Contains(t, text(t, tl), " 23:59:58:00 00:00:00:00\n")
}

func TestNotFilmedIsSaid(t *testing.T) {
	c := sample.Joined(t, sample.Entry("a.toml"), sample.ClipFiles)
	tl, err := timeline.Of(c, []timeline.Footage{{Rounds: 3}})
	require.NoError(t, err)
	assert.Contains(t, text(t, tl), "001  A_1      V     C        00:00:02:00 00:00:04:00")
	assert.Contains(t, text(t, tl), "* NOT FILMED YET")
}

func TestTheCamerasFileIsNamed(t *testing.T) {
	c := sample.Joined(t, sample.Entry("a.toml"), sample.ClipFiles)
	tl, err := timeline.Of(c, []timeline.Footage{{Take: 1, Rounds: 3, Clip: "a001_c004_0312.mov"}})
	require.NoError(t, err)
	assert.Contains(t, text(t, tl), "001  A001C004 V     C ")
	assert.Contains(t, text(t, tl), "\n* SOURCE FILE: a001_c004_0312.mov\n")
}

func TestWriterFails(t *testing.T) {
	tl := of(t, whole, sample.ClipFiles)
	sample.Fails(t, len(text(t, tl)), func(w io.Writer) error { return editlist.Write(w, tl) })
}

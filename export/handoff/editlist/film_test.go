package editlist_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/handoff/editlist"
	"seamrail/motion/base/exact"
	"seamrail/motion/edit/filmed"
	"seamrail/motion/edit/timeline"
	"seamrail/motion/plan/sample"
)

// filming gives the pieces of a clip films that begin 50 frames before their takes.
func filming(t require.TestingT, text string, of filmed.Film) timeline.Timeline {
	c := sample.Joined(t, text, sample.ClipFiles)
	footage := make([]timeline.Footage, len(c.Pieces))
	for i, p := range c.Pieces {
		up, down := p.Trajectory.RampFrames()
		all, f := p.Trajectory.RoundFrames(), of
		f.By, f.Zero, f.Round, f.In = filmed.ByPicture, float64(50+up), 1, 50+up+all
		f.Out, f.Frames = f.In+p.Trajectory.Captured(), 50+up+3*all+down
		footage[i] = timeline.Footage{Take: 2, Rounds: 3, Clip: f.File, Film: &f}
	}
	tl, err := timeline.Of(c, footage)
	require.NoError(t, err)
	return tl
}

// The reader of such lists finds the frames of a film where its timecode has them, where that counts
// as the list does; else it counts them from 0, and the list says so and what the timecode is.
func TestAFilmInAList(t *testing.T) {
	for _, c := range []struct {
		what  string
		film  filmed.Film
		start int64
		says  string
	}{
		{"its own timecode", filmed.Film{File: "A001C002.mov", Rate: exact.Int(24), Timecode: "01:00:00:00"}, 86400, "* LABELS OF REEL A001C002 ARE ITS OWN TIMECODE\n"},
		{"slower by a thousandth", filmed.Film{File: "A001C002.mov", Rate: exact.New(24000, 1001), Timecode: "01:00:00:00"}, 86400, "ARE ITS OWN TIMECODE\n"},
		{"another count", filmed.Film{File: "A001C002.mov", Rate: exact.Int(25), Timecode: "01:00:00:00"}, 0, "* LABELS OF REEL A001C002 COUNT THE FRAMES OF ITS FILE FROM 0; BY ITS OWN TIMECODE 01:00:"},
		{"drop-frame", filmed.Film{File: "A001C002.mov", Rate: exact.New(30000, 1001), Timecode: "01:00:00;00"}, 0, "BY ITS OWN TIMECODE 01:00:"},
		{"none", filmed.Film{File: "A001C002.mov", Rate: exact.Int(24)}, 0, "COUNT THE FRAMES OF ITS FILE FROM 0; IT HAS NO TIMECODE\n"},
	} {
		tl := filming(t, whole, c.film)
		list := text(t, tl)
		got, err := read(list, 24)
		require.NoError(t, err, c.what)
		for i, e := range got.events {
			want := tl.Events[i]
			var in int64
			if i > 0 {
				in = tl.Joins[i-1].In
			}
			begins := want.First.Sub(exact.Int(in).Mul(tl.Piece(want).Shot.Clock.PerScreen()))
			require.Equal(t, c.start+begins.Floor().Whole(), e.sourceIn, c.what)
			require.Less(t, e.sourceOut, c.start+want.Recorded+1)
		}
		assert.Contains(t, list, c.says, c.what)
		assert.Contains(t, list, "* FROM CLIP NAME:  A001C002.mov\n")
		assert.Contains(t, list, "* SOURCE FILE: A001C002.mov\n")
		assert.Contains(t, list, ", take 2, ROUND 2: FRAME 0 OF THE PLAN IS AT FRAME ")
		assert.NotContains(t, list, "FROM WHERE THE TAKE BEGINS TO MOVE")
	}
}

// What a film lacks of the clip is an error, and no labels of before midnight.
func TestAFilmThatLacks(t *testing.T) {
	tl := filming(t, whole, filmed.Film{File: "A001C002.mov", Rate: exact.Int(24)})
	tl.Events[0].First = exact.Int(-3)
	require.ErrorContains(t, editlist.Write(&bytes.Buffer{}, tl), "event 1, a.toml: A001C002.mov lacks 3 frames of it; another take, or fewer rounds of it, would do")
	tl.Events[0].First = exact.Int(tl.Events[0].Recorded).Sub(tl.Events[0].Used).Add(exact.New(1, 2))
	require.ErrorContains(t, editlist.Write(&bytes.Buffer{}, tl), "lacks 1 frame of it")
	tl.Events[0].First = exact.Int(tl.Events[0].Recorded).Sub(tl.Events[0].Used)
	require.NoError(t, editlist.Write(&bytes.Buffer{}, tl))
}

package timeline_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/edit/timeline"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/sample/many"
)

// of lays a clip out from takes of so many rounds, one a piece.
func of(t require.TestingT, text string, rounds ...int64) timeline.Timeline {
	tl, err := laid(t, text, rounds...)
	require.NoError(t, err)
	return tl
}

func laid(t require.TestingT, text string, rounds ...int64) (timeline.Timeline, error) {
	c := sample.Joined(t, text, sample.ClipFiles)
	footage := make([]timeline.Footage, len(c.Pieces))
	for i := range footage {
		footage[i] = timeline.Footage{Take: 2, Rounds: rounds[min(i, len(rounds)-1)]}
	}
	return timeline.Of(c, footage)
}

// A loop that goes on at its seam is shown through as many rounds as the take has.
func TestStretches(t *testing.T) {
	tl := of(t, sample.Entry("a.toml", `from = "12 frames"`, `length = "72 frames"`, `dissolve = "0 frames"`), 5)
	require.Len(t, tl.Events, 1)
	e := tl.Events[0]
	// Of five rounds of 48 the third and the fourth are shown, the later of the middle ones.
	assert.Equal(t, "108", e.First.String(), "round 2, frame 12")
	assert.Equal(t, "72", e.Used.String())
	assert.Equal(t, []int64{108, 60, 240}, []int64{e.Before, e.After, e.Recorded})
	assert.EqualValues(t, 179, e.Last(exact.Int(1)))

	// A take of one round is shown again.
	tl = of(t, sample.Entry("a.toml", `from = "12 frames"`, `length = "72 frames"`, `dissolve = "0 frames"`), 1)
	require.Len(t, tl.Events, 2)
	assert.Equal(t, []int64{0, 36, 36, 36}, []int64{tl.Events[0].Start, tl.Events[0].Frames, tl.Events[1].Start, tl.Events[1].Frames})
	assert.Equal(t, timeline.GoesOn, tl.Joins[0].Kind, "its loop closes")
	assert.Equal(t, "0", tl.Events[1].First.String())

	// A pass is shown round by round, the kept one each time, and the way back never.
	tl = of(t, sample.Entry("b.toml", "rounds = 3", `dissolve = "0 frames"`), 3)
	require.Len(t, tl.Events, 3)
	round := tl.Clip.Pieces[0].Trajectory.RoundFrames()
	up, _ := tl.Clip.Pieces[0].Trajectory.RampFrames()
	require.Greater(t, round, int64(48))
	for _, e := range tl.Events {
		assert.Equal(t, fmt.Sprint(up+round), e.First.String())
		assert.Equal(t, round, e.Before)
	}
	assert.Equal(t, timeline.Seam, tl.Joins[0].Kind)
}

// However a clip is cut up and filmed, its events follow on without a gap, last exactly
// as long as it, and use frames that their takes have, handles of dissolves included.
func TestEventsFollowOn(t *testing.T) {
	many.Check(t, 60, func(t *rapid.T) {
		rounds := rapid.SliceOfN(rapid.Int64Range(1, 5), 4, 4).Draw(t, "rounds")
		tl := of(t, sample.AnyClip(t), rounds...)
		require.Len(t, tl.Joins, len(tl.Events))
		var at int64
		for i, e := range tl.Events {
			require.Equal(t, at, e.Start)
			require.Positive(t, e.Frames)
			at = e.End()
			per := tl.Piece(e).Shot.Clock.PerScreen()
			require.True(t, e.Used.Equal(exact.Int(e.Frames).Mul(per)))
			in := tl.Joins[(i+len(tl.Joins)-1)%len(tl.Joins)].In
			if i == 0 {
				in = 0
			}
			require.LessOrEqual(t, in, e.Before)
			require.LessOrEqual(t, tl.Joins[i].Out, e.After)
			require.GreaterOrEqual(t, e.First.Sub(exact.Int(in).Mul(per)).Sign(), 0)
			end := e.First.Add(e.Used).Add(exact.Int(tl.Joins[i].Out).Mul(per))
			require.False(t, exact.Int(e.Recorded).Less(end))
			require.LessOrEqual(t, in+tl.Joins[i].In, e.Frames+in, "two dissolves never meet")
		}
		require.Equal(t, tl.Clip.Frames, at)
		var last exact.Rat
		for _, m := range tl.Marks {
			require.Less(t, m.Frame, tl.Clip.Frames)
			require.False(t, m.At.Less(last))
			last = m.At
		}
	})
}

// A seam that shows is dissolved, over half a second where the handles bear it.
func TestASeamThatShows(t *testing.T) {
	tl := of(t, sample.Entry("b.toml", `from = "12 frames"`, `length = "72 frames"`)+sample.Entry("a.toml", `length = "24 frames"`), 3)
	require.Equal(t, timeline.Seam, tl.Joins[0].Kind)
	j := tl.Joins[0]
	require.True(t, j.Known && j.Shows)
	// 40 mm of 100 are 1600 of 4000 px.
	assert.InDelta(t, 1600, j.Carry.Jump, 60)
	assert.Equal(t, []int64{6, 6, 12}, []int64{j.In, j.Out, j.Length()})
	assert.False(t, j.Stated)
	assert.Empty(t, j.Lacks)

	// Nothing beside the cut: said, with how much there is.
	tl = of(t, sample.Entry("b.toml", "rounds = 2")+sample.Entry("a.toml"), 1)
	j = tl.Joins[0]
	assert.True(t, j.Shows)
	assert.LessOrEqual(t, j.Length(), j.Most)
	stated := of(t, sample.Entry("b.toml", `length = "48 frames"`, `dissolve = "200 frames"`)+sample.Entry("a.toml"), 1)
	j = stated.Joins[0]
	assert.Zero(t, j.Length())
	assert.Contains(t, j.Lacks, "a dissolve of 200 frames is asked for, and the takes have ")

	// 0 frames are a cut.
	tl = of(t, sample.Entry("a.toml", `dissolve = "0 frames"`)+sample.Entry("b.toml"), 3)
	assert.Zero(t, tl.Joins[0].Length())
	assert.True(t, tl.Joins[0].Stated)
}

// The clip dissolves into what comes before its first frame, so that after its last
// picture its first is next.
func TestTheClipComesRound(t *testing.T) {
	tl := of(t, sample.Entry("a.toml", `from = "6 frames"`, `length = "30 frames"`)+sample.Entry("b.toml", `from = "4 frames"`, `length = "30 frames"`, `dissolve = "8 frames"`), 3)
	require.Len(t, tl.Events, 3)
	first, last, again := tl.Events[0], tl.Events[1], tl.Events[2]
	assert.True(t, again.Again)
	assert.Equal(t, []int64{52, 8, 60, 22}, []int64{again.Start, again.Frames, again.End(), last.Frames})
	assert.True(t, again.First.Add(again.Used).Equal(first.First), "it ends where the clip begins")
	assert.Equal(t, []int64{0, 8}, []int64{tl.Joins[1].In, tl.Joins[1].Out})
	now, into, share := tl.At(59)
	assert.Equal(t, []int64{1, 0}, []int64{int64(now.Piece), int64(into.Piece)})
	assert.EqualValues(t, 5, into.Captured, "frame 6 is the clip's first")
	assert.InDelta(t, 8.0/9, share, 1e-12)
	now, _, share = tl.At(0)
	assert.EqualValues(t, 6, now.Captured)
	assert.Zero(t, share)
}

func TestReels(t *testing.T) {
	c := sample.Joined(t, sample.Entry("more/lantern-close.toml")+sample.Entry("more/lantern-close.toml", `light = "dusk"`)+sample.Entry("ü.toml", `reel = "A012C003"`)+sample.Entry("ü.toml", `light = "x"`),
		map[string]string{"more/lantern-close.toml": sample.Across, "ü.toml": sample.Across})
	tl, err := timeline.Of(c, []timeline.Footage{{Take: 12, Rounds: 3}, {Take: 12, Rounds: 3}, {Rounds: 1}, {Rounds: 1}})
	require.NoError(t, err)
	var names []string
	for _, e := range tl.Events {
		names = append(names, e.Reel)
		assert.LessOrEqual(t, len(e.Reel), 8)
	}
	assert.Equal(t, []string{"LANTE_12", "LANTE_12", "A012C003", "SHOT_1"}, names)
	assert.Equal(t, "take 1, not filmed yet", tl.Events[2].Name())
	assert.Equal(t, "take 12", tl.Events[0].Name())
}

// What the camera calls a recording is its name, as far as a list of edits has room; where
// two begin alike the second has the number of what is filmed.
func TestReelsOfTheCamera(t *testing.T) {
	c := sample.Joined(t, sample.Entry("a.toml")+sample.Entry("a.toml", `light = "dusk"`)+sample.Entry("b.toml", `reel = "MINE"`), sample.ClipFiles)
	tl, err := timeline.Of(c, []timeline.Footage{
		{Take: 1, Rounds: 3, Clip: "a001_c004_0312.mov"}, {Take: 2, Rounds: 3, Clip: "A001C0042.mov"}, {Take: 1, Rounds: 3, Clip: "A002"},
	})
	require.NoError(t, err)
	reels := map[int]string{}
	for _, e := range tl.Events {
		reels[e.Piece] = e.Reel
	}
	assert.Equal(t, map[int]string{0: "A001C004", 1: "S2_2", 2: "MINE"}, reels)
}

// What is short is told: the takes, or the shots.
func TestWhyThereIsNoDissolve(t *testing.T) {
	for _, x := range []struct{ a, b, want string }{
		{`length = "9 frames"`, `length = "8 frames"`, ""}, // 4 and 4
		{`length = "7 frames"`, `length = "8 frames"`, `a dissolve of 8 frames is asked for, and no more than half of a shot dissolves at one end of it: "7 frames" would fit, or longer shots`},
		{"rounds = 3", "rounds = 3", `a dissolve of 8 frames is asked for, and the takes have 0 beside the cut: "0 frames" would fit, or a take of more rounds`},
	} {
		tl := of(t, sample.Entry("a.toml", x.a, `dissolve = "8 frames"`)+sample.Entry("a.toml", x.b, `light = "dusk"`), 3)
		assert.Equal(t, x.want, tl.Joins[0].Lacks)
	}
}

// A name that stands for the file may be that of another file: S2 is the second shot, and
// what a shot of another folder is called.
func TestReelsOfShotsThatAreNumbered(t *testing.T) {
	files := map[string]string{"s2.toml": sample.Across, "low/s2.toml": sample.Across, "s3.toml": sample.Across}
	text := sample.Entry("s2.toml") + sample.Entry("low/s2.toml") + sample.Entry("s3.toml") + sample.Entry("s2.toml", `light = "dusk"`)
	names := func(take int) (out []string) {
		c := sample.Joined(t, text, files)
		tl, err := timeline.Of(c, slices.Repeat([]timeline.Footage{{Take: take, Rounds: 3}}, len(c.Pieces)))
		require.NoError(t, err)
		for _, e := range tl.Events {
			if !e.Again {
				out = append(out, e.Reel)
			}
		}
		return out
	}
	assert.Equal(t, []string{"S2_1", "S3_1", "S4_1", "S5_1"}, names(0), "not filmed: one each")
	assert.Equal(t, []string{"S2_4", "S3_4", "S4_4", "S2_4"}, names(4), "one take, whatever light it is shown for")
}

func TestRefused(t *testing.T) {
	_, err := laid(t, sample.Entry("a.toml", `reel = "one"`)+sample.Entry("b.toml", `reel = "ONE"`), 3)
	assert.ErrorContains(t, err, `clip.toml:6:8: shot[2].reel "ONE" names the recording of another take too`)
	_, err = laid(t, sample.Entry("b.toml", `rounds = 20000`), 3)
	assert.ErrorContains(t, err, `shot[1].file "b.toml" is shown round by round, which makes more than 10000 stretches`)
}

// Cues are marked in the rounds in which they happen, as they are seen.
func TestCuesAreMarked(t *testing.T) {
	tl := of(t, sample.Entry("a.toml", `from = "12 frames"`, `length = "96 frames"`, `dissolve = "0 frames"`), 3)
	each := func(int64) bool { return true }
	tl.MarkCues([][]timeline.Seen{{{Name: "pour", Screen: exact.New(61, 4), In: each}, {Name: "once", Screen: exact.Int(20), In: func(r int64) bool { return r == 2 }}}})
	var got []string
	for _, m := range tl.Marks {
		got = append(got, fmt.Sprintf("%d %s %s", m.Frame, m.Name, m.At))
	}
	// Rounds 1 to 3 of the take are passed; frame 15.25 comes 3.25 frames into the first.
	assert.Equal(t, []string{"3 pour 13/96", "36 frame 0 of a.toml 3/2", "51 pour 205/96", "56 once 7/3", "84 frame 0 of a.toml 7/2"}, got)
}

package timeline_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/edit/filmed"
	"seamrail/motion/edit/timeline"
	"seamrail/motion/plan/sample"
)

// By hand: a.toml has rounds of 24 or so frames, of which its take has three, and a film that holds
// all of them, the first alone, or the last. The stretch is of a round that is there, with no more
// beside it than there is.
func TestAStretchOfAFilm(t *testing.T) {
	c := sample.Joined(t, "sequence = \"Fernhollow lantern\"\n"+sample.Entry("a.toml"), sample.ClipFiles)
	p := c.Pieces[0]
	all := p.Trajectory.RoundFrames()
	for _, x := range []struct {
		what         string
		zero, frames int64
		round        int64
		lacks        int64
	}{
		{"all of it", 10, 10 + 3*all, 1, 0},
		{"begun in the first round", -5, 3*all - 5, 1, 0},
		{"begun in the second", -all - 5, 2*all - 5, 2, 0},
		{"ended in the second", 10, 10 + 2*all - 1, 0, 0},
		{"less than a round", 10, 10 + all - 4, 1, all + 4},
	} {
		f := filmed.Film{File: "B.mov", Frames: x.frames, Zero: float64(x.zero), By: filmed.ByPicture, Round: 1, In: x.zero + all, Out: x.zero + 2*all}
		tl, err := timeline.Of(c, []timeline.Footage{{Take: 2, Rounds: 3, Clip: "B.mov", Film: &f}})
		require.NoError(t, err)
		e := tl.Events[0]
		require.Equal(t, x.round, e.Round, x.what)
		require.Equal(t, x.lacks, e.Lacks(), x.what)
		require.Equal(t, x.zero+x.round*all, e.First.Whole(), x.what)
		require.Equal(t, x.frames, e.Recorded, x.what)
		if x.lacks > 0 {
			continue
		}
		per := p.Shot.Clock.PerScreen()
		require.LessOrEqual(t, e.Before, e.First.Quo(per).Floor().Whole(), x.what)
		require.GreaterOrEqual(t, e.Before, int64(0))
		require.GreaterOrEqual(t, e.After, int64(0))
		require.LessOrEqual(t, e.First.Add(e.Used).Whole(), x.frames, x.what)
	}
	require.Zero(t, timeline.Event{}.Lacks())
}

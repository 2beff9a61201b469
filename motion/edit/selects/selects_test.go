package selects_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/edit/selects"
	"seamrail/motion/plan/sample"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

func TestWithoutATakeThePlansOwn(t *testing.T) {
	p := sample.With(t, rig.InverseTime).Plan()
	got := selects.Of(p, nil)
	require.Empty(t, got.LeftOut)
	require.Len(t, got.Kept, 1)
	s := got.Kept[0]
	require.Equal(t, "as planned", s.Name())
	require.Equal(t, p.Loop.Captured, s.Frames())
	require.Equal(t, int64(p.Rounds), s.Rounds)
}

// By hand: a run-up of 7, rounds of 100, a run-out of 9, handles of 30. Of four
// rounds the third is kept.
func TestByHand(t *testing.T) {
	p := *sample.With(t, rig.InverseTime).Plan()
	p.Loop.Captured, p.RunUp, p.RunOut, p.Handles = 100, 7, 9, 30
	s := selects.Of(&p, []selects.Filmed{{Number: 3, Plan: p.Hash(), Rounds: 4, Notes: []string{"steam"}}}).Kept[0]
	require.Equal(t, selects.Select{
		Take: 3, Notes: []string{"steam"}, Rounds: 4, Round: 2, Recorded: 416, First: 207, Last: 306, Before: 30, After: 30,
	}, s)
	require.Equal(t, int64(307), s.Seam())
	require.Equal(t, "take 3", s.Name())

	one := selects.Of(&p, []selects.Filmed{{Number: 1, Plan: p.Hash(), Rounds: 1}}).Kept[0]
	require.Equal(t, [4]int64{7, 106, 0, 0}, [4]int64{one.First, one.Last, one.Before, one.After}, "nothing at pace on either side")

	p.Back = 20
	cut := selects.Of(&p, []selects.Filmed{{Number: 1, Plan: p.Hash(), Rounds: 2}}).Kept[0]
	require.Equal(t, [4]int64{127, 226, 30, 20}, [4]int64{cut.First, cut.Last, cut.Before, cut.After}, "the way back is at pace too")
}

// Of a take frame by frame nothing of the way back is a file, and one that goes on with another
// says so.
func TestFrameByFrame(t *testing.T) {
	p := *sample.With(t, rig.InverseTime).Plan()
	p.Loop.Captured, p.RunUp, p.RunOut, p.Handles, p.Back, p.ByFrame = 100, 0, 0, 30, 20, &shot.ByFrame{}
	s := selects.Of(&p, []selects.Filmed{{Number: 3, Plan: p.Hash(), Rounds: 2, From: 7}}).Kept[0]
	require.Equal(t, [5]int64{100, 199, 30, 0, 200}, [5]int64{s.First, s.Last, s.Before, s.After, s.Recorded})
	require.Equal(t, []string{"frames before 7 are files of an earlier take: number them from frame 0 on"}, s.Notes)
}

func TestWhatCannotBeTold(t *testing.T) {
	p := sample.With(t, rig.InverseTime).Plan()
	hash := p.Hash()
	got := selects.Of(p, []selects.Filmed{
		{Number: 1, Plan: "0123", Rounds: 3},
		{Number: 2, Plan: hash, Rounds: 3, Cut: true},
		{Number: 3, Plan: hash, Rounds: 3, Held: true},
		{Number: 4, Plan: hash},
		{Number: 5, Plan: hash, Rounds: 3, Ended: "alarm"},
	})
	require.Empty(t, got.Kept, "the plan's own take is no stand-in for those")
	require.Equal(t, []selects.LeftOut{
		{1, "it was filmed by another plan, 0123"},
		{2, "nothing is told of its end"},
		{3, "it was stopped and went on, out of step with the frames"},
		{4, "it has no whole round"},
		{5, `it ended as "alarm": how many of its rounds are whole is not known`},
	}, got.LeftOut)
}

// What is kept lies within what was recorded at pace, handles and all.
func TestWithinTheRecording(t *testing.T) {
	base := *sample.With(t, rig.InverseTime).Plan()
	rapid.Check(t, func(t *rapid.T) {
		p := base
		n := func(name string, least int64) int64 { return rapid.Int64Range(least, 400).Draw(t, name) }
		p.RunUp, p.RunOut, p.Handles, p.Back = n("run-up", 0), n("run-out", 0), n("handles", 0), n("back", 0)
		s := selects.Of(&p, []selects.Filmed{{Number: 1, Plan: p.Hash(), Rounds: n("rounds", 1)}}).Kept[0]
		require.Equal(t, p.Loop.Captured, s.Frames())
		require.Zero(t, (s.First-p.RunUp)%p.RoundFrames(), "it begins with a frame 0")
		require.LessOrEqual(t, p.RunUp, s.First-s.Before)
		require.Less(t, s.Last+s.After, s.Recorded-p.RunOut)
	})
}

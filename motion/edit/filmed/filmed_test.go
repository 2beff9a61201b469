package filmed_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/edit/filmed"
	"seamrail/motion/spec/shot"
)

func even(int64) filmed.Run { return filmed.Run{} }

// By hand: rounds of 100 frames, all shown, and a film that begins where it will.
func TestTheRoundThatIsKept(t *testing.T) {
	for _, c := range []struct {
		what      string
		zero      float64
		frames    int64
		rounds    int64
		round, in int64
		rounded   float64
		run       func(int64) filmed.Run
		fault     string
	}{
		{what: "the middle one", zero: 37, frames: 400, rounds: 3, round: 1, in: 137},
		{what: "the later of two", zero: 37, frames: 400, rounds: 2, round: 1, in: 137},
		{what: "the nearest whole frame, above", zero: 37.4, frames: 400, rounds: 1, in: 37, rounded: -0.4},
		{what: "and below", zero: 36.6, frames: 400, rounds: 1, in: 37, rounded: 0.4},
		{what: "a half goes up", zero: 36.5, frames: 400, rounds: 1, in: 37, rounded: 0.5},
		{what: "a film that was begun late", zero: -130.2, frames: 400, rounds: 3, round: 2, in: 70, rounded: 0.2},
		{what: "half a frame that is lacking is not there", zero: -0.4, frames: 100, rounds: 1, in: 0, rounded: 0.4},
		{what: "one that ended early", zero: 10, frames: 200, rounds: 3, in: 10},
		{what: "just long enough", zero: 10, frames: 210, rounds: 3, round: 1, in: 110},
		{what: "a round that was late", zero: 37, frames: 400, rounds: 3, round: 1, in: 140, rounded: 0.2, run: func(r int64) filmed.Run {
			return filmed.Run{Late: 2.8 * float64(r)}
		}},
		{what: "too short", zero: 10, frames: 109, rounds: 3, fault: "B.mov holds no whole round: it has 109 frames, frame 0 of the plan is at 10.0, and a loop takes 100"},
		{what: "too late", zero: -250, frames: 109, rounds: 3, fault: "holds no whole round"},
	} {
		f := filmed.Film{File: "B.mov", Zero: c.zero, Frames: c.frames, By: filmed.ByPicture}
		run := c.run
		if run == nil {
			run = even
		}
		got, err := f.Keep(c.rounds, 100, 100, run)
		if c.fault != "" {
			assert.ErrorContains(t, err, c.fault, c.what)
			continue
		}
		require.NoError(t, err, c.what)
		assert.Equal(t, [3]int64{c.round, c.in, c.in + 100}, [3]int64{got.Round, got.In, got.Out}, c.what)
		assert.InDelta(t, c.rounded, got.Rounded(100), 1e-9, c.what)
		assert.True(t, got.Holds(c.rounds, 100), c.what)
		assert.False(t, got.Holds(c.round, 100), "there is no such round")
		assert.False(t, got.Holds(c.rounds, 101))
	}
}

// Whatever is kept is in the film, whole, and nearest to where it was found; a round nearer to the
// middle that the film holds there is none.
func TestWhatIsKeptIsThere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := rapid.Int64Range(2, 500).Draw(t, "all")
		shown := rapid.Int64Range(1, all).Draw(t, "shown")
		rounds := rapid.Int64Range(1, 9).Draw(t, "rounds")
		f := filmed.Film{Zero: rapid.Float64Range(-3000, 3000).Draw(t, "zero"), Frames: rapid.Int64Range(0, 4000).Draw(t, "frames"), By: filmed.ByPicture}
		holds := func(round int64) bool {
			in := math.Floor(f.Zero + float64(round*all) + 0.5)
			return in >= 0 && in+float64(shown) <= float64(f.Frames)
		}
		got, err := f.Keep(rounds, all, shown, even)
		middle := shot.KeptRound(rounds)
		off := func(r int64) int64 { return max(r-middle, middle-r) }
		if err != nil {
			for r := range rounds {
				require.False(t, holds(r))
			}
			return
		}
		require.True(t, holds(got.Round))
		require.True(t, got.Holds(rounds, shown))
		require.LessOrEqual(t, math.Abs(got.Rounded(all)), 0.5)
		for r := range rounds {
			require.False(t, off(r) < off(got.Round) && holds(r))
		}
		require.Equal(t, got.In, got.Offset(7, all)+7+got.Round*all, "frame 0 of the take is its frame 7")
	})
}

// Check values: drop-frame labels of the tests of OpenTimelineIO, and the arithmetic of SMPTE ST
// 12-1; a film whose timecode begins elsewhere goes on from there.
func TestTimecode(t *testing.T) {
	for _, c := range []struct {
		rate      exact.Rat
		begins    string
		frame, at int64
		label     string
	}{
		{exact.New(30000, 1001), "00:00:00;00", 1800, 1800, "00:01:00;02"},
		{exact.New(30000, 1001), "02:00:00;00", 0, 215784, "02:00:00;00"},
		{exact.New(30000, 1001), "09:59:59;29", 1, 1078920, "10:00:00;00"},
		{exact.New(30000, 1001), "00:00:00:00", 1800, 1800, "00:01:00:00"},
		{exact.New(24000, 1001), "01:00:00:00", 85, 86485, "01:00:03:13"},
		{exact.Int(25), "23:59:59:24", 1, 2160000, "00:00:00:00"},
		{exact.New(60000, 1001), "00:00:59;59", 1, 3600, "00:01:00;04"},
	} {
		f := filmed.Film{File: "B.mov", Rate: c.rate, Timecode: c.begins, Frames: 5000}
		assert.Equal(t, c.label, f.Label(c.frame), c.begins)
		assert.Equal(t, c.at, f.Start()+c.frame, c.begins)
		assert.False(t, f.Custom())
	}
	fast := filmed.Film{File: "B.mov", Rate: exact.New(120000, 1001), Timecode: "01:00:00:118"}
	assert.Equal(t, "01:00:01:000", fast.Label(2))
	assert.True(t, fast.Custom())
	for _, c := range []struct {
		rate   exact.Rat
		begins string
		says   string
	}{
		{exact.Int(24), "", "B.mov has no timecode"},
		{exact.Rat{}, "01:00:00:00", "B.mov does not say how many frames its timecode 01:00:00:00 counts a second"},
		{exact.Int(24), "01:00:00;00", "the timecode 01:00:00;00 of B.mov is not used: drop-frame timecode at 24 must be at 29.97 or 59.94"},
		{exact.Int(24), "01:00:00:24", `the timecode 01:00:00:24 of B.mov is not used: timecode "01:00:00:24" has frames "24"; they must be 00 to 23`},
		{exact.New(30000, 1001), "00:01:00;00", "is skipped by drop-frame"},
		{exact.Int(24), "noon", "the timecode noon of B.mov is not used"},
	} {
		f := filmed.Film{File: "B.mov", Rate: c.rate, Timecode: c.begins}
		_, _, err := f.Labels()
		assert.ErrorContains(t, err, c.says)
		assert.Empty(t, f.Label(3))
		assert.Zero(t, f.Start())
	}
}

// A mark agrees with the picture up to what both may be out by, and no further.
func TestMarkAndPicture(t *testing.T) {
	f := filmed.Film{Zero: 100, Sure: 0.25}
	for mark, apart := range map[float64]bool{101.4: false, 101.6: true, 98.6: false, 98.4: true} {
		by, got := f.ApartFrom(mark, 1)
		assert.Equal(t, apart, got, "%g", mark)
		assert.InDelta(t, mark-100, by, 1e-9)
	}
}

// What an editor is to know is said, and what is of no account is not.
func TestWords(t *testing.T) {
	f := filmed.Film{
		File: "B.mov", Rate: exact.New(24000, 1001), Timecode: "01:00:00:00", Frames: 300, Zero: 37.38, Sure: 0.012, By: filmed.ByPicture,
		Round: 1, In: 85, Out: 133, Loop: filmed.Loop{From: 80, Frames: 48, Unseen: true, AsGood: true},
	}
	assert.Equal(t, []string{
		"B.mov: frame 0 at 37.38 ± 0.012 frames, by the picture",
		"round 2 is kept: frames 85 to 132, seam at frame 133; by its timecode 01:00:03:13 to 01:00:05:12, seam at 01:00:05:13",
		"whole frames are the nearest: the kept round is cut 0.38 of a frame early",
		"its seam is not seen",
	}, f.Words(48))

	f.Zero, f.Timecode, f.Longer, f.Loop.AsGood, f.Still = 37, "", 0.7, false, "take_0086.tif"
	assert.Equal(t, []string{
		"whole frames are the nearest, and the kept round begins on one",
		"that round took +0.7 frames beside what is cut out: the seam is open by as much",
		"another loop of it is better: frames 80 to 127, the seam of which is not seen",
		"B.mov has no timecode: the edit counts its frames from 0",
		"the first still that is kept is take_0086.tif",
	}, f.Words(48)[2:])

	f.Loop.Unseen, f.Longer, f.Rate, f.Timecode = false, -0.4, exact.New(120000, 1001), "01:00:00:00"
	words := strings.Join(f.Words(48), "\n")
	assert.Contains(t, words, "the seam of which is seen too")
	assert.NotContains(t, words, "open by as much")
	assert.Contains(t, words, "its timecode is taken to count 120 frames a second: above 60 cameras differ in that")

	f.By = filmed.Nothing
	assert.Equal(t, []string{"B.mov: where its frame 0 is, is not known", "its frames are counted from where the take begins to move"}, f.Words(48))
	assert.False(t, f.Known())
	for by, says := range map[filmed.By]string{filmed.ByMark: "by the sync mark", filmed.ByTimes: "by the times at which the picture changes"} {
		f.By, f.Sure = by, 0
		assert.Contains(t, f.Where(), says)
	}
}

// A loop that a person has chosen is kept as it is, of the round in which it begins, where the film
// holds it.
func TestALoopThatWasChosen(t *testing.T) {
	f := filmed.Film{File: "B.mov", Zero: 37.25, Frames: 400, By: filmed.ByHand}
	for in, round := range map[int64]int64{0: 0, 37: 0, 80: 0, 88: 1, 139: 1, 300: 2} {
		got, err := f.From(in, 3, 100, 100, func(r int64) filmed.Run { return filmed.Run{Late: float64(r)} })
		require.NoError(t, err)
		assert.Equal(t, [3]int64{round, in, in + 100}, [3]int64{got.Round, got.In, got.Out})
		assert.InDelta(t, float64(in)-37.25-float64(101*round), got.Rounded(100), 1e-9)
		assert.True(t, got.Holds(3, 100))
	}
	for _, in := range []int64{-1, 301, math.MaxInt64 - 200} {
		_, err := f.From(in, 3, 100, 100, even)
		assert.ErrorContains(t, err, "B.mov has 400 frames, and a loop of 100 that begins with frame")
	}
	assert.Contains(t, f.Where(), "by hand")
}

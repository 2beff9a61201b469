package align_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/footage"
	"seamrail/motion/footage/align"
)

const small = 320 // pixels wide, and 180 high

// followed is a take of a scene that lies as a function of the frame has it.
func followed(frames int, at func(n int) footage.Pose, touch func(n int, g footage.Gray)) []footage.Frame {
	sc := scene(11, small, small*9/16, 900)
	tracker := align.NewTracker(2)
	for n := range frames {
		g := seen(sc, small, small*9/16, at(n).Magnified(0.5))
		if touch != nil {
			touch(n, g)
		}
		tracker.Add(grainy(g, 0.01, uint64(n)))
	}
	return tracker.Frames()
}

// worst is how far off the worst frame is, of those that are known, and how many are not.
func worst(frames []footage.Frame, at func(n int) footage.Pose) (most float64, unknown int) {
	for n, f := range frames {
		if !f.FromFirst.Known {
			unknown++
			continue
		}
		want := at(n)
		most = math.Max(most, math.Hypot(f.FromFirst.X-want.X, f.FromFirst.Y-want.Y))
	}
	return most, unknown
}

// A move there and back over more than the picture is wide is followed by landmarks, and at its
// end the frame lies on the first itself.
func TestAMoveIsFollowedThereAndBack(t *testing.T) {
	const frames = 90
	at := func(n int) footage.Pose {
		u := float64(n) / frames
		p := footage.Same()
		p.X, p.Scale = -1.3*2*small*(1-math.Cos(2*math.Pi*u))/2, 1+0.1*math.Sin(2*math.Pi*u)
		p.Turn = 3 * math.Sin(4*math.Pi*u)
		return p
	}
	got := followed(frames+1, at, nil)
	most, unknown := worst(got, at)
	assert.Zero(t, unknown)
	assert.Less(t, most, 1.0, "chained over five landmarks, in pixels of which the tracker saw halves")
	last := got[frames].FromFirst
	assert.Less(t, math.Hypot(last.X, last.Y), 2*tenth)
	for n := 1; n < frames; n++ {
		step := at(n).After(at(n - 1).Inverse())
		assert.InDelta(t, step.X, got[n].FromBefore.X, 3*tenth, "frame %d", n)
	}
}

// A hand that goes through the picture, and a flash, move nothing.
func TestAHandMovesNothing(t *testing.T) {
	at := func(n int) footage.Pose { return footage.Linear(20*math.Sin(float64(n)/6), 0, 1, 0) }
	hand := scene(12, small, small, 500)
	got := followed(40, at, func(n int, g footage.Gray) {
		if n > 10 && n < 30 {
			other := seen(hand, small, g.Height, footage.Linear(float64(15*n), 0, 1, 0))
			for y := g.Height / 2; y < g.Height; y++ {
				copy(g.Row(y)[:small*3/4], other.Row(y))
			}
		}
		if n == 20 {
			for i := range g.Pix {
				g.Pix[i] *= 1.2
			}
		}
	})
	most, unknown := worst(got, at)
	assert.Zero(t, unknown)
	assert.Less(t, most, 3*tenth)
	assert.Greater(t, got[20].Mean, got[19].Mean)
}

// A thing that goes by for ever before nothing, as the skin of one that turns, is not believed to
// have gone far once the first picture is there again.
func TestWhatComesRoundHasNotGoneFar(t *testing.T) {
	const round = 60
	sc := scene(13, small, small*9/16, 900)
	var inPart []blob
	for _, b := range sc {
		b.x = math.Mod(b.x+10*small, 2*small) // the skin repeats after two widths
		for k := -2.0; k <= 2; k++ {
			inPart = append(inPart, blob{b.x + k*2*small, b.y, b.size, b.light})
		}
	}
	tracker := align.NewTracker(1)
	for n := range round + 5 {
		tracker.Add(grainy(seen(inPart, small, small*9/16, footage.Linear(float64(n%round)*2*small/round, 0, 1, 0)), 0.01, uint64(n)))
	}
	got := tracker.Frames()
	require.True(t, got[round+2].FromFirst.Known)
	assert.Less(t, math.Abs(got[round].FromFirst.X), 1.0)
	assert.False(t, got[round/2].FromFirst.Known)
	assert.InDelta(t, 2*small/round, got[round/2].FromBefore.X, 1)
}

// What is black or white is counted, and a cut is a change.
func TestLightIsMeasured(t *testing.T) {
	got := followed(4, func(int) footage.Pose { return footage.Same() }, func(n int, g footage.Gray) {
		for i := range g.Pix {
			switch n {
			case 1:
				g.Pix[i] = -1
			case 2:
				g.Pix[i] = 2
			}
		}
	})
	assert.InDelta(t, 1, got[1].Black, 1e-9)
	assert.InDelta(t, 1, got[2].White, 1e-9)
	assert.InDelta(t, 1, got[2].Changed, 0.01)
	assert.False(t, got[1].FromFirst.Known)
	assert.Less(t, got[0].Black+got[0].White, 0.1)
	assert.True(t, got[3].FromFirst.Known, "what was covered is found again")
}

// What is blurred has less that is fine.
func TestBlurIsMeasured(t *testing.T) {
	sharp := followed(3, func(int) footage.Pose { return footage.Same() }, nil)
	blurred := followed(3, func(int) footage.Pose { return footage.Same() }, func(_ int, g footage.Gray) {
		for y := range g.Height {
			row := g.Row(y)
			for x := range len(row) - 15 {
				var sum float32
				for _, v := range row[x : x+15] {
					sum += v
				}
				row[x] = sum / 15
			}
		}
	})
	for n := range sharp {
		assert.Less(t, blurred[n].Fine, 0.9*sharp[n].Fine)
	}
}

func BenchmarkTracker(b *testing.B) {
	sc := scene(11, width, height, 900)
	var frames []footage.Gray
	for n := range 16 {
		frames = append(frames, grainy(seen(sc, width, height, footage.Linear(float64(4*n), 0, 1, 0)), 0.01, uint64(n)))
	}
	b.ReportAllocs()
	tracker, n := align.NewTracker(3), 0
	for b.Loop() {
		k := n % 30
		tracker.Add(frames[min(k, 30-k)])
		n++
	}
	b.ReportMetric(float64(n)/b.Elapsed().Seconds(), "frames/s")
}

// A take goes on from where it was, also where a pattern that repeats has more of the picture agree
// on another place: a paper that is longer than the picture and goes to the left by a period lies on
// itself as if it had not moved.
func TestAPatternThatRepeatsIsNotJumpedOver(t *testing.T) {
	const period = 100.0
	for seed := range uint64(4) {
		var paper []blob
		for _, b := range scene(seed+5, period/3, 0.5*small*9/16/3, 90) { // above and below it is even
			for x := b.x - 4*period; x < 5*period; x += period {
				paper = append(paper, blob{x, b.y, 2 + b.size/4, b.light})
			}
		}
		at := footage.Same()
		at.X = -period
		reference := align.Prepare(grainy(seen(paper, small, small*9/16, footage.Same()), 0.01, seed))
		frame := align.Prepare(grainy(seen(paper, small, small*9/16, at), 0.01, seed+100))
		near := at
		near.X, near.Y = near.X+2, near.Y-1
		got := align.On(reference, frame, &near)
		require.True(t, got.Known)
		assert.InDelta(t, at.X, got.X, tenth, "seed %d", seed)
		got = align.On(reference, frame, nil)
		assert.InDelta(t, 0, got.X, tenth, "where nothing is expected, what most agree on")
	}
}

// Pictures of any size are looked at, down to one pixel: what is too small for a block has nothing
// to hold on to.
func TestSmallPictures(t *testing.T) {
	for _, width := range []int{1, 2, 3, 8, 16, 23, 24, 25, 26, 40, 80, 92, 96, 104, 112, 160, 200} {
		for _, height := range []int{1, 2, 16, 25, 26, 88, 90, 96, 104, 160} {
			tracker := align.NewTracker(1)
			for n := range 3 {
				at := footage.Same()
				at.X = float64(n)
				tracker.Add(grainy(seen(scene(11, 200, 160, 400), width, height, at), 0.01, uint64(n)))
			}
			for n, f := range tracker.Frames() {
				if f.FromFirst.Known && width*height >= 160*90 {
					assert.InDelta(t, float64(n), f.FromFirst.X, 1, "%d x %d", width, height)
				}
			}
		}
	}
}

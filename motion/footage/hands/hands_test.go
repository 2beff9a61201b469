package hands_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/footage"
	"seamrail/motion/footage/hands"
	"seamrail/motion/plan/sample/many"
)

// rate is slow, so that a short film has frames away from its cue too.
const rate = 12.0

// at is a cue whose window is from one frame to another.
func at(opens, closes float64) hands.Cue {
	return hands.Cue{Opens: opens, Closes: closes, Sure: 0.05, Region: hands.Whole()}
}

// conditions are what a film may be filmed under: none of them may be taken for a hand, and none may
// hide one.
func conditions() map[string]scene {
	flicker := func(n int, x, _ float64) float64 { return 1 + 0.06*math.Sin(float64(n)*2.1)*(1-x) }
	step := func(n int, _, _ float64) float64 {
		if n >= 60 {
			return 0.8
		}
		return 1
	}
	turns := func(n int) footage.Pose {
		p := glide(2, 120)(n)
		p.Turn, p.Scale = 2*math.Sin(float64(n)/20), 1+0.03*math.Sin(float64(n)/30)
		return p
	}
	return map[string]scene{
		"a camera that stands":      {moves: still},
		"grain":                     {moves: still, grain: 0.03},
		"a camera that glides":      {moves: glide(3, 120), grain: 0.01},
		"one that is quick":         {moves: glide(12, 120), grain: 0.01},
		"one that turns and grows":  {moves: turns, grain: 0.01},
		"a lamp that flickers":      {moves: glide(2, 120), grain: 0.01, light: flicker},
		"light that is turned down": {moves: still, grain: 0.01, light: step},
		"poses that are not quite":  {moves: glide(3, 120), grain: 0.01, wobble: 0.1},
	}
}

// A hand is told from all that a film may be like, on both sides of each edge of its window; where
// there is none, none is seen.
func TestAHandInItsWindow(t *testing.T) {
	for name, s := range conditions() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			for seed, c := range []struct {
				first, last int // of the hand; none where first is 0
				kind        hands.Kind
				by          int
			}{
				{0, 0, hands.NotSeen, 0},
				{64, 76, hands.Inside, 0},
				{59, 76, hands.Inside, 0}, // a frame is the grid of time
				{55, 66, hands.Early, 5},
				{45, 55, hands.Early, 15},
				{80, 92, hands.Inside, 0},
				{84, 92, hands.Late, 4},
				{95, 104, hands.Late, 15},
			} {
				if seed%4 != len(name)%4 && !many.Asked() {
					continue // each is asked of some
				}
				s.frames, s.bright, s.seed = 120, 0.85, uint64(seed)
				if c.first > 0 {
					s.hand = reaches(c.first, c.last)
				}
				got := hands.Look(s.film(t), rate, []hands.Cue{at(60, 80)})[0]
				require.Equal(t, c.kind.String(), got.Kind.String(), "a hand from %d to %d: %+v", c.first, c.last, got)
				require.InDelta(t, c.by, got.By, 1, "%+v", got)
				if c.first > 0 {
					require.InDelta(t, c.first, got.First, 1)
					require.InDelta(t, c.last, got.Last, 3, "it is gone from that frame on")
					require.Greater(t, got.Where.Right, 0.6)
				}
			}
		})
	}
}

// What a hand is too like to be seen before is not seen, or not told: never seen elsewhere.
func TestAHandThatHardlyShows(t *testing.T) {
	for _, c := range []struct {
		grain float64
		why   string
	}{{0.02, ""}, {1.5, "the picture changes so much anyway that a hand would not stand out"}} {
		s := scene{frames: 120, moves: still, grain: c.grain}
		got := hands.Look(s.film(t), rate, []hands.Cue{at(60, 80)})[0]
		assert.Equal(t, c.why, got.Why)
		assert.Equal(t, c.why != "", got.Kind == hands.NotTold)
	}
}

// What is not recorded, or does not hang together, is not told.
func TestWhatCannotBeTold(t *testing.T) {
	s := scene{frames: 120, moves: glide(3, 120), grain: 0.01, bright: 0.85, hand: reaches(64, 76)}
	tell := func(s scene, cues ...hands.Cue) hands.Seen { return hands.Look(s.film(t), rate, cues)[0] }
	assert.Equal(t, "its window was not recorded", tell(s, at(110, 125)).Why)
	assert.Equal(t, "its window was not recorded", tell(s, at(-5, 12)).Why)
	assert.Equal(t, "another hand acts at the same time", tell(s, at(60, 80), at(70, 90)).Why)

	lost := s
	lost.lost = func(n int) bool { return n > 40 && n%3 == 0 }
	assert.Equal(t, "how the frames about it lie on each other is not known", tell(lost, at(60, 80)).Why)
	few := s
	few.lost = func(n int) bool { return n > 40 && n%9 == 0 }
	assert.Equal(t, hands.Inside, tell(few, at(60, 80)).Kind, "one in nine is no harm")

	flies := s // something small goes about all along, everywhere
	flies.frames = 200
	flies.hand = func(n int) (x, y, size float64, ok bool) {
		return 320 + 260*math.Sin(float64(n)/7), 180 + 130*math.Sin(float64(n)/5), 30, true
	}
	assert.Equal(t, "something moves all along", tell(flies, at(60, 80)).Why)
}

// A flame that is there all along is none of a hand, and hides none beside it.
func TestAFlameIsNoHand(t *testing.T) {
	s := scene{frames: 120, moves: glide(2, 120), grain: 0.01, bright: 0.85}
	s.light = func(n int, x, y float64) float64 {
		if math.Hypot(x-0.25, y-0.3) < 0.08 {
			return 1.2 + 0.4*math.Sin(float64(n)*1.9)
		}
		return 1
	}
	got := hands.Look(s.film(t), rate, []hands.Cue{at(60, 80)})[0]
	assert.Equal(t, hands.NotSeen, got.Kind, "%+v", got)
	s.hand = reaches(66, 76)
	got = hands.Look(s.film(t), rate, []hands.Cue{at(60, 80)})[0]
	assert.Equal(t, hands.Inside, got.Kind, "%+v", got)
	assert.InDelta(t, 66, got.First, 1)
}

// Of two hands each has its own, the nearer one, and a region keeps what is elsewhere out.
func TestEachHandHasItsOwn(t *testing.T) {
	s := scene{frames: 200, moves: glide(2, 200), grain: 0.01, bright: 0.85}
	first, second := reaches(50, 60), reaches(118, 130)
	s.hand = func(n int) (x, y, size float64, ok bool) {
		if x, y, size, ok = first(n); !ok {
			x, y, size, ok = second(n)
		}
		return x, y, size, ok
	}
	film := s.film(t)
	got := hands.Look(film, rate, []hands.Cue{at(48, 62), at(100, 112)})
	assert.Equal(t, hands.Inside, got[0].Kind, "%+v", got[0])
	assert.Equal(t, hands.Late, got[1].Kind, "%+v", got[1])
	assert.InDelta(t, 6, got[1].By, 1)

	left := at(48, 62)
	left.Region = hands.Region{Right: 0.4, Bottom: 1}
	assert.Equal(t, hands.NotSeen, hands.Look(film, rate, []hands.Cue{left})[0].Kind, "it comes from the right")
}

// A hand that stays in the picture is inside, and goes on.
func TestAHandThatStays(t *testing.T) {
	s := scene{frames: 160, moves: still, grain: 0.01, bright: 0.85}
	s.hand = func(n int) (x, y, size float64, ok bool) {
		return 400 + 30*math.Sin(float64(n)), 170, 40, n >= 70 && n < 100
	}
	got := hands.Look(s.film(t), rate, []hands.Cue{at(60, 80)})[0]
	assert.Equal(t, hands.Inside, got.Kind)
	assert.InDelta(t, 20, got.After, 1)
	assert.Equal(t, "inside", fmt.Sprint(got.Kind))
}

// Without a cue nothing is looked at, and of a film without frames nothing is told.
func TestNothingToLookFor(t *testing.T) {
	assert.Empty(t, hands.Look(nil, rate, nil))
	got := hands.Look(scene{frames: 1, moves: still}.film(t), rate, []hands.Cue{at(0, 1)})
	assert.Equal(t, hands.NotTold, got[0].Kind)
}

func BenchmarkLook(b *testing.B) {
	film := scene{frames: 240, moves: glide(3, 240), grain: 0.01}.film(b)
	b.ResetTimer()
	for b.Loop() {
		hands.Look(film, rate, []hands.Cue{at(60, 80)})
	}
	b.ReportMetric(float64(b.Elapsed().Seconds())/float64(b.N)/240*1e6, "µs/frame")
}

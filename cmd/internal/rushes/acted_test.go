package rushes_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/rushes"
	"seamrail/motion/footage"
	"seamrail/motion/footage/alike"
	"seamrail/motion/footage/hands"
)

// handled is a take of a camera that stands, with a hand in some of its frames, recorded at twice the
// size at which it was looked at.
func handled(t *testing.T, frames int, hand func(n int) bool) *rushes.Take {
	t.Helper()
	const wide, high = 96, 54
	take, c := &rushes.Take{Step: 2}, &alike.Collector{}
	take.Course.About = footage.About{Width: 2 * wide, Height: 2 * high}
	for n := range frames {
		g := footage.NewGray(wide, high)
		for k := range g.Pix {
			x, y := float64(k%wide), float64(k/wide)
			g.Pix[k] = float32(0.4 + 0.1*math.Sin(x/7) + 0.1*math.Cos(y/5))
			if hand(n) && x > 60 && y > 20 && y < 40 {
				g.Pix[k] = 0.9
			}
		}
		require.NoError(t, c.Add(g))
		take.Course.Frames = append(take.Course.Frames, footage.Frame{FromFirst: footage.Same(), FromBefore: footage.Same()})
	}
	take.Sketches = c.Sketches()
	return take
}

// What other rounds do not tell, the frame before does: of a hand that acts in the second of two
// rounds, and of one in the only round of a take.
func TestWhatHandsDid(t *testing.T) {
	cues := []hands.Cue{{Opens: 95, Closes: 110, Region: hands.Whole()}}
	hand := func(n int) bool { return n >= 98 && n < 104 }
	for rounds, each := range map[int]float64{2: 60, 1: 120} {
		take := handled(t, 140, hand)
		for _, wide := range []int{0, 192} {
			got := take.Acted(wide, hands.Rounds{Zero: 10, Each: each, Count: rounds}, 12, cues)[0]
			assert.Equal(t, hands.Inside, got.Kind, "%d rounds: %+v", rounds, got)
			assert.Equal(t, 98, got.First, "%d rounds", rounds)
			assert.InDelta(t, 104, got.Last, 1, "%d rounds", rounds)
		}
	}
	none := handled(t, 140, func(int) bool { return false })
	assert.Equal(t, hands.NotSeen, none.Acted(0, hands.Rounds{Zero: 10, Each: 60, Count: 2}, 12, cues)[0].Kind)
	assert.Empty(t, none.Acted(0, hands.Rounds{}, 12, nil))
}

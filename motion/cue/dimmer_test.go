package cue_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/cue"
)

// dimmedBy is the rail with a lamp that a hand dims, at the given capture rate.
func dimmedBy(t testing.TB, capture, lines string) cue.Sheet {
	t.Helper()
	clock := strings.Replace(clockOf, `capture = "120"`, `capture = "`+capture+`"`, 1)
	return sheet(t, clock+railOf+"[[scene.lamps]]\nname = \"key\"\nby = \"hand\"\n"+lines)
}

// At real speed a fade there and back in 144 frames of 24, with a rest of 48, goes up
// from 0 to 2 s and down from 4 to 6 s. Each end is counted to inside the fade, and each
// comes in every round; where the next fade begins as one ends, its beginning says both.
func TestAFadeByHand(t *testing.T) {
	s := dimmedBy(t, "24", `fade = { from = "0 %", to = "81 %", dwell-far = "48 frames" }
curve = "square"
hand = "left"
`)
	var names, at, what []string
	for _, c := range s.Cues {
		names = append(names, c.Name)
		at = append(at, c.Now().Decimal(3))
		what = append(what, c.What)
		assert.Nil(t, c.Rounds)
		assert.Equal(t, "left", c.Hand)
	}
	assert.Equal(t, []string{"key up", "key is up", "key down"}, names)
	assert.Equal(t, []string{"0", "2", "4"}, at)
	assert.Equal(t, []string{"dial from 0 % to 90 % by frame 48, in 2 s", "dial at 90 %",
		"dial from 90 % to 0 % by frame 144, in 2 s"}, what)
	assert.Equal(t, []string{"the hand should be there by then"}, s.Cues[1].Because())
	assert.Equal(t, []string{"it is seen as the hand moves"}, s.Cues[2].Because())
	assert.True(t, s.Cues[1].First().Cmp(s.Cues[0].Now()) > 0, "the end is counted to after the beginning")
	assert.Empty(t, s.Cautions(3))
	beats := 0
	for b := range s.Beats(3) {
		if b.Cue != cue.CountIn && b.Left == 0 {
			beats++
		}
	}
	assert.Equal(t, 9, beats, "three in each of three rounds")
}

// A rest at the near end too has the end of the way down said, as the last frame begins;
// what follows soon is counted to with as many beats as fit.
func TestTheEndOfAFadeByHand(t *testing.T) {
	s := dimmedBy(t, "24", `fade = { from = "0 %", to = "81 %", dwell-far = "9 frames", dwell-near = "27 frames" }
beats = 4
`)
	names, beats := []string{}, []int64{}
	for _, c := range s.Cues {
		names, beats = append(names, c.Name), append(beats, c.Beats)
	}
	assert.Equal(t, []string{"key up", "key is up", "key down", "key is down"}, names)
	// 54 frames each way are 2.25 s; 9 frames are 0.375 s, which hold no beat of half a
	// second, and 27 are 1.125 s, which hold two.
	assert.Equal(t, []int64{4, 0, 4, 2}, beats)
	assert.Equal(t, "4.875", s.Cues[3].Now().Decimal(3))
	for _, c := range s.Cues[:3] {
		assert.Zero(t, c.Reaction.Sign())
	}
	assert.Equal(t, "1/5", dimmedBy(t, "24", "fade = { from = \"0 %\", to = \"9 %\" }\nbeats = 0\n").Cues[0].Reaction.String())
}

// A fade of a second a hand can do, and one that is shorter by a frame of 1000 it cannot:
// what it is told then is the retime at which it lasts a second.
func TestTheQuickestFadeByHand(t *testing.T) {
	const half = `keys = [{ at = "0 frames", level = "0 %" }, { at = "72 frames", level = "80 %" }]
between = "3-4-5"
`
	// Half of 144 frames captured at 72 a second is a second.
	assert.Empty(t, dimmedBy(t, "72", half).Hasty())
	hasty := dimmedBy(t, "73", half).Hasty()
	require.Len(t, hasty, 1)
	assert.InDelta(t, 72.0/73, hasty[0].Lasts.Float(), 1e-9)
	hasty = dimmedBy(t, "120", half).Hasty()
	require.Len(t, hasty, 1)
	assert.Equal(t, "key fades in 0.6 s of real time, and a hand takes a second to go evenly (common practice): no hand can do that", hasty[0].String())
	assert.Equal(t, `a retime of 0.334 or more, which is at most 72 captured frames a second; or a fade 1.7 times as long; or by = "table"`, hasty[0].Cure())
	assert.Equal(t, []string{hasty[0].String() + "; " + hasty[0].Cure() + " would do"}, dimmedBy(t, "120", half).Cautions(3))

	quick := strings.Replace(half, "72 frames", "20 frames", 1)
	hasty = dimmedBy(t, "24", quick).Hasty()
	require.Len(t, hasty, 1)
	assert.Contains(t, hasty[0].Cure(), "a fade 1.2 times as long, as not even the speed that it is seen at would do")
	assert.True(t, hasty[0].Lasts.Sub(exact.New(20, 24)).Abs().Float() < 1e-9)
}

// What jumps at the seam no hand can do, however slow the rest is.
func TestACutByHand(t *testing.T) {
	hasty := dimmedBy(t, "24", "keys = [{ at = \"0 frames\", level = \"0 %\" }, { at = \"72 frames\", level = \"80 %\" }]\nseam = \"cut\"\n").Hasty()
	require.Len(t, hasty, 1)
	assert.Contains(t, hasty[0].String(), "key is elsewhere at once where the loop closes")
}

// A lamp that a table dims has no cue, and the cues of the file come first.
func TestOnlyHandsHaveCues(t *testing.T) {
	s := sheet(t, clockOf+railOf+"[[scene.lamps]]\nfade = { from = \"0 %\", to = \"9 %\" }\n")
	assert.Empty(t, s.Cues)
	s = dimmedBy(t, "24", "fade = { from = \"0 %\", to = \"9 %\" }\n[[cue]]\nname = \"pebble\"\nat = \"3 s\"\n")
	assert.Equal(t, "pebble", s.Cues[0].Name)
	assert.Len(t, s.Cues, 3, "up and down, at once after each other")
}

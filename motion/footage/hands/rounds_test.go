package hands_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/footage/hands"
	"seamrail/motion/plan/sample/many"
)

// seenIn tells what is seen of a cue in the second round, in frames of that round.
func (d deep) seenIn(opens, closes float64) hands.Seen {
	s, course, cell := d.film()
	from := 10 + float64(d.each)
	if d.rounds == 1 {
		from = 10
	}
	cues := []hands.Cue{at(from+opens, from+closes)}
	return hands.Look(hands.Again(s, course, cell, hands.Rounds{Zero: 10, Each: float64(d.each), Count: d.rounds}, rate, cues), rate, cues)[0]
}

func shows(first, last int) func(int) bool { return func(n int) bool { return n >= first && n < last } }

// Where a take goes round, a hand is told however deep the scene is, whatever turns in it, and where
// rounds are a little late: beside the same frames of other rounds. Both sides of the window.
func TestBesideOtherRounds(t *testing.T) {
	for name, d := range map[string]deep{
		"deep":                 {rounds: 3, each: 60},
		"two rounds":           {rounds: 2, each: 60},
		"what turns":           {rounds: 3, each: 60, spins: true},
		"rounds that are late": {rounds: 3, each: 60, late: 0.02},
	} {
		for k, c := range []struct {
			first, last int // of the hand, in frames of the second round
			kind        hands.Kind
			by          int
		}{
			{0, 0, hands.NotSeen, 0},
			{22, 30, hands.Inside, 0},
			{19, 26, hands.Inside, 0},
			{16, 26, hands.Early, 4},
			{31, 38, hands.Inside, 0},
			{34, 44, hands.Late, 4},
		} {
			if (k+len(name))%3 != 0 && !many.Asked() {
				continue // each is asked of some
			}
			if d.hand = nil; c.last > 0 {
				d.hand = shows(70+c.first, 70+c.last)
			}
			got := d.seenIn(20, 30)
			require.Equal(t, c.kind.String(), got.Kind.String(), "%s, a hand from %d to %d: %+v", name, c.first, c.last, got)
			require.Equal(t, c.by, got.By, "%s: %+v", name, got)
			if c.last > 0 {
				require.Equal(t, [2]int{70 + c.first, 70 + c.last - 1}, [2]int{got.First, got.Last}, name)
			}
		}
	}
}

// A hand that rests is there all along.
func TestAHandThatRests(t *testing.T) {
	d := deep{rounds: 3, each: 60, hand: shows(92, 110)}
	got := d.seenIn(20, 30)
	assert.Equal(t, hands.Inside, got.Kind, "%+v", got)
	assert.Equal(t, [3]int{92, 109, 9}, [3]int{got.First, got.Last, got.After})
}

// Where there is one round alone, its way back shows what its way there showed; where there is no
// such frame either, and the scene may be deep, nothing is told rather than a hand seen that was
// the bar.
func TestOneRoundAlone(t *testing.T) {
	d := deep{rounds: 1, each: 160, hand: shows(10+40, 10+50)}
	got := d.seenIn(35, 50)
	assert.Equal(t, hands.Inside, got.Kind, "%+v", got)
	assert.InDelta(t, 50, got.First, 1)
	d.hand = nil
	assert.Equal(t, hands.NotSeen, d.seenIn(35, 50).Kind)

	short := deep{rounds: 1, each: 30, hand: shows(10+10, 10+20)}
	s, course, cell := short.film()
	cues := []hands.Cue{at(20, 30)}
	got = hands.Look(hands.Again(s, course, cell, hands.Rounds{Zero: 10, Each: 30, Count: 1}, rate, cues), rate, cues)[0]
	assert.Equal(t, "how the frames about it lie on each other is not known", got.Why)
	got = hands.Look(hands.Sketched(s, course, cell), rate, cues)[0]
	assert.Equal(t, "the camera moves, and nothing shows what that alone changes", got.Why)
}

package cue_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/cue"
)

func TestWords(t *testing.T) {
	for lines, want := range map[string]string{
		"at = \"72 frames\"":                                                                     "frame 72 of 144|0.6 s after frame 0|it is seen as the hand moves|3 beats of 0.5 s, then now|round 2",
		"at = \"turnaround\"\nbeats = 0\nrounds = 2":                                             "frame 72 of 144, turnaround of rail|0.4 s after frame 0|the hand reacts in 0.2 s|not counted: a single tone says now|round 2",
		"at = \"far-end\"\nafter = \"-6 frames\"\nbeats = 1":                                     "frame 66 of 144, 6 frames before the far end of rail|0.55 s after frame 0|it is seen as the hand moves|one beat, 0.5 s before now|round 2",
		"at = \"near-end\"\nafter = \"1 frame\"\nmeasured = \"0.6 s\"\nrounds = \"each\"":        "frame 1 of 144, 1 frame after the near end of rail|0.592 s before frame 0|it lands 0.6 s after the hand's move, as measured|3 beats of 0.5 s, then now|each round",
		"at = \"1 s\"\nfall = \"20 cm\"\nflow = \"0.2 m/s\"\nlead = \"0.35 s\"\nrounds = [1, 3]": "frame 24 of 144|0.333 s before frame 0|it leaves the hand after 0.35 s; it falls 200 mm, from 200 mm/s, in 0.183 s|3 beats of 0.5 s, then now|rounds 1, 3",
	} {
		s := one(t, lines)
		c := s.Cues[0]
		got := []string{s.Seen(c), c.Told(), strings.Join(c.Because(), "; "), c.Counted(), c.InRounds()}
		assert.Equal(t, want, strings.Join(got, "|"), lines)
	}
}

func TestHabitsInWords(t *testing.T) {
	for want, late := range map[string][]float64{
		"nothing is known of how late this hand is":                                                      nil,
		"this hand has been 0.09 s late on average in 1 take: told 0.03 s earlier":                       {0.09},
		"this hand has been 0.06 s early on average in 2 takes, give or take 0.028 s: told 0.03 s later": {-0.04, -0.08},
		"this hand has been 0 s late on average in 2 takes, give or take 0.141 s":                        {-0.1, 0.1},
	} {
		h := cue.HabitOf(late)
		assert.Equal(t, want, h.String())
		c := one(t, "at = \"3 s\"\nhand = \"left\"").WithHabits(map[string]cue.Habit{"left": h, "right": cue.HabitOf([]float64{1})}).Cues[0]
		assert.Equal(t, h.Shift().Sign() != 0, strings.Contains(strings.Join(c.Because(), ""), want))
		assert.Equal(t, exact.New(3, 5).Sub(h.Shift()), c.Now())
	}
	assert.Equal(t, "hand", cue.Called("hand"))
	assert.Equal(t, "left hand", cue.Called("left"))
}

// The time of a take begins with its count-in, which is as long as the first cue
// needs, and ends at rest.
func TestTake(t *testing.T) {
	s := one(t, "at = \"0 s\"\nmeasured = \"1 s\"\nbeats = 7\nbeat = \"1 s\"\nrounds = 1")
	take := s.ForTake(2, 3)
	require.EqualValues(t, 8, take.CountIn, "told a second before the loop, after seven beats of a second")
	assert.Equal(t, "-8", take.Starts().String())
	assert.Equal(t, "52/5", take.Lasts().String(), "eight seconds and two rounds of 1.2 s")
	var at []string
	for b := range take.Beats() {
		at = append(at, b.At.String())
		if len(at) == 4 {
			break
		}
	}
	assert.Equal(t, []string{"0", "0", "1", "1"}, at, "both counts begin at once")
	assert.EqualValues(t, 12, s.ForTake(1, 12).CountIn)
	assert.Panics(t, func() { s.ForTake(0, 3) })
}

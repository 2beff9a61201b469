package logbook

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/export/drive/takelog"
	"seamrail/motion/cue"
)

// A hand that a log says was late in a virtual take has no habit of it: pick does
// not hold the take.
func TestVirtualTakesAreNotTimed(t *testing.T) {
	late := takelog.Take{Marks: takelog.Marks{Late: map[string]float64{"left": 1}}}
	assert.True(t, isTimed(late))
	late.Begin.Virtual = true
	assert.False(t, isTimed(late))
}

// timedTake is a take in which hands were told earlier, and seen late.
func timedTake(shift, late map[string]float64) takelog.Take {
	return takelog.Take{Begin: takelog.Record{Shift: shift}, Marks: takelog.Marks{Late: late}}
}

// A cue that came earlier and was still seen late counts for both.
func TestHabits(t *testing.T) {
	log := takelog.Log{Takes: []takelog.Take{
		timedTake(nil, map[string]float64{"left": 0.09, "right": -0.02}),
		timedTake(map[string]float64{"left": 0.03}, map[string]float64{"left": 0.06}),
		timedTake(nil, nil),
		timedTake(nil, map[string]float64{"": 7, "foot": 5}),
	}}
	got := habits(log, []string{"left", "right", "knee"})
	assert.Equal(t, 2, got["left"].Takes)
	assert.InDelta(t, 0.09, got["left"].Mean, 1e-12)
	assert.InDelta(t, -0.02, got["right"].Mean, 1e-12)
	assert.Equal(t, cue.Habit{}, got["knee"])
	assert.Len(t, strange(log, []string{"left", "right", "knee"}), 2)

	got = habits(takelog.Log{Takes: []takelog.Take{timedTake(map[string]float64{"left": 0.5}, map[string]float64{"": 7})}}, []string{"left"})
	assert.Equal(t, cue.Habit{Takes: 1, Mean: 7.5}, got["left"], "a mark without a name is of the only hand")
}

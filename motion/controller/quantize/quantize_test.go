package quantize_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/controller/quantize"
	"seamrail/motion/spec/rig"
)

func rail(perMM int64) []rig.Axis {
	return []rig.Axis{{Name: "rail", Letter: "X", StepsPerUnit: exact.Int(perMM)}}
}

// kept is a line, copied.
type kept struct {
	moves               bool
	steps               int64
	seconds, feed, till float64
}

func teller(c rig.Controller, perMM int64) (*quantize.Quantizer, *[]kept) {
	var lines []kept
	t := quantize.New(c, rail(perMM), []exact.Rat{{}}, func(l *quantize.Line) {
		k := kept{l.Moves, 0, l.Seconds, l.Feed, l.Until}
		if l.Moves {
			k.steps = l.Steps[0]
		}
		lines = append(lines, k)
	})
	t.Start([]float64{0})
	return t, &lines
}

// A block in which the motor does not step gives its time to the next.
func TestTimeWithoutAStepGoesOn(t *testing.T) {
	tell, lines := teller(rig.Controller{Decimals: 3}, 80)
	tell.Block(0.1, 0.1, []float64{0.004}, false) // a third of a step
	require.Empty(t, *lines)
	tell.Block(0.1, 0.08, []float64{0.014}, false)
	require.Len(t, *lines, 1)
	got := (*lines)[0]
	require.Equal(t, int64(1), got.steps)
	require.InDelta(t, 0.18, got.seconds, 1e-12)
	require.InDelta(t, 60/0.18, got.feed, 1e-9)
	require.InDelta(t, 0.2, got.till, 1e-12)
}

// Where the axes rest, time is a dwell, and a part of a step is landed.
func TestRestIsADwell(t *testing.T) {
	tell, lines := teller(rig.Controller{Decimals: 3}, 80)
	tell.Block(0.1, 0.1, []float64{1}, false)
	tell.Block(0.1, 0.1, []float64{1.004}, false)
	tell.Block(0.5, 0.5, []float64{1.004}, true)
	require.Len(t, *lines, 4)
	pause, land, dwell := (*lines)[1], (*lines)[2], (*lines)[3]
	require.False(t, pause.moves)
	require.InDelta(t, 0.099, pause.seconds, 1e-12)
	require.True(t, land.moves)
	require.Zero(t, land.steps)
	require.InDelta(t, 0.5, dwell.seconds, 1e-12)
	require.InDelta(t, 0.7, dwell.till, 1e-12)
}

// Steps and time add up whatever the blocks are like.
func TestNothingIsLost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		per := rapid.Int64Range(1, 2000).Draw(t, "steps per mm")
		tell, lines := teller(rig.Controller{Decimals: 3}, per)
		past, place := 0.0, 0.0
		for range rapid.IntRange(1, 40).Draw(t, "blocks") {
			sec := rapid.Float64Range(0.001, 0.2).Draw(t, "seconds")
			rest := rapid.Bool().Draw(t, "rest")
			if !rest {
				place += rapid.Float64Range(-0.05, 0.05).Draw(t, "mm")
			}
			past += sec
			tell.Block(sec, sec, []float64{place}, rest)
		}
		tell.Settle()
		seconds, steps := 0.0, int64(0)
		for _, l := range *lines {
			seconds += l.seconds
			steps += l.steps
		}
		require.InDelta(t, past, seconds, 1e-5)
		require.InDelta(t, past, tell.Now, 1e-9)
		require.Equal(t, int64(math.Round(math.Round(place*1000)/1000*float64(per))), steps)
	})
}

// A feed of no decimals tells a block of 0.0175 s as 1/3429 min; one that
// rounds to nothing tells it never.
func TestFeedsAreReadAsTheyAreWritten(t *testing.T) {
	c := rig.Controller{Decimals: 3, FeedDecimals: 1}
	var tell *quantize.Quantizer
	var read []float64
	tell = quantize.New(c, rail(80), []exact.Rat{{}}, func(l *quantize.Line) { read = append(read, tell.Written(l)) })
	tell.Start([]float64{0})
	tell.Block(0.0175, 0.0175, []float64{1}, false)
	tell.Block(3600, 3600, []float64{2}, false)
	require.InDelta(t, 60/3428.6, read[0], 1e-12)
	require.True(t, math.IsInf(read[1], 1))
}

// A controller that goes by whole steps takes a feed per minute along them.
func TestAMinutesFeedGoesByWholeSteps(t *testing.T) {
	c := rig.Controller{Decimals: 3, Feed: rig.PerMinute}
	var tell *quantize.Quantizer
	var stretch, read float64
	tell = quantize.New(c, rail(10), []exact.Rat{{}}, func(l *quantize.Line) { stretch, read = tell.Stretch(l), tell.Written(l) })
	tell.Start([]float64{0})
	tell.Block(1, 1, []float64{0.96}, false) // ten steps, 1 mm
	require.InDelta(t, 0.96, stretch, 1e-12)
	require.InDelta(t, 1/0.96, read, 1e-6)
}

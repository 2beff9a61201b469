package program_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
	"seamrail/motion/controller/program"
	"seamrail/motion/controller/segment"
	"seamrail/motion/move"
	"seamrail/motion/plan/sample"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// all reads a program that ends after so many rounds.
func all(t *testing.T, p *program.Program, rounds int64) []program.Line {
	p.FinishAfter(rounds)
	var out []program.Line
	for l, ok := p.Next(); ok; l, ok = p.Next() {
		out = append(out, l)
	}
	require.NoError(t, p.Err())
	return out
}

// Every line follows on the one before, and stands where the path is when it
// ends.
func TestLinesCoverTheTakeWithoutAGap(t *testing.T) {
	tr := sample.Through(t)
	take, err := segment.EqualTime{}.Cut(tr)
	require.NoError(t, err)
	lines := all(t, program.New(tr, take), 3)
	p := tr.Plan()
	at := -p.Loop.Clock.FrameTime(p.RunUp).Float()
	for _, l := range lines {
		require.InDelta(t, at, l.Start, 1e-9, l.Text)
		require.GreaterOrEqual(t, l.End, l.Start)
		at = l.End
		if !l.Moves || l.Round == program.Setup {
			require.True(t, l.Round == program.Setup || l.Round == 3, "%s takes no time in round %d", l.Text, l.Round)
			continue
		}
		for i, pos := range l.Aim {
			// A motor step of either axis is at most a tenth; a word waits for one.
			require.InDelta(t, tr.TakeState(i, 3, l.End).Pos, pos, 0.1, l.Text)
		}
	}
	require.InDelta(t, 3*tr.Period().Float()+p.Loop.Clock.FrameTime(p.RunOut).Float(), at, 1e-9)
	require.Equal(t, "M2", lines[len(lines)-1].Text)
}

func TestFinishEndsAfterTheRoundInHand(t *testing.T) {
	tr := sample.Through(t)
	take, err := segment.EqualTime{}.Cut(tr)
	require.NoError(t, err)
	p := program.New(tr, take)
	last := program.Line{Round: program.Setup}
	for l, ok := p.Next(); ok; l, ok = p.Next() {
		require.Less(t, l.Round, int64(6))
		if l.Round == 4 {
			p.Finish()
			p.Finish()
		}
		require.GreaterOrEqual(t, l.Round, last.Round)
		last = l
	}
	require.Equal(t, int64(5), last.Round, "the end of a take of five rounds")
	_, ok := p.Next()
	require.False(t, ok)
}

// A program that is asked to finish before it begins still goes round once.
func TestFinishAtOnceIsOneRound(t *testing.T) {
	tr := sample.Still(t)
	take, err := segment.EqualTime{}.Cut(tr)
	require.NoError(t, err)
	early, once := program.New(tr, take), program.New(tr, take)
	early.Finish()
	require.Equal(t, all(t, once, 1), all(t, early, 7))
}

// A loop in which no motor takes a step still takes its time, round by round.
func TestARoundWithoutAStepIsADwell(t *testing.T) {
	rail := sample.Rail(t, "3-4-5", 1)
	rail = sample.Ways(rail, func(w *move.Ways) { w.To.Value = w.From.Value.Add(exact.New(1, 1000)) })
	tr := sample.Make(t, 24, sample.Bench(rig.InverseTime), rail)
	take, err := segment.EqualTime{}.Cut(tr)
	require.NoError(t, err)
	waited := 0.0 // or landed within a step
	for _, l := range all(t, program.New(tr, take), 4) {
		if l.Round >= 0 {
			waited += l.End - l.Start
		}
	}
	require.InDelta(t, 4, waited, 1e-9)
}

func TestFeedThatRoundsToNothing(t *testing.T) {
	r := sample.Bench(rig.InverseTime)
	r.Controller.FeedDecimals = 1
	hold := shot.AxisMove{Name: "rail", Does: move.Hold{At: unit.Quantity{Value: exact.Int(40), Dim: unit.Length}}}
	tr := sample.Make(t, 24, r, hold)
	minutes := exact.Int(30 * 60)
	take := segment.Take{Rest: []float64{40}, Round: []segment.Block{{Seconds: minutes, Nominal: minutes, End: []float64{41}}}}
	p := program.New(tr, take)
	p.FinishAfter(1)
	for _, ok := p.Next(); ok; _, ok = p.Next() {
	}
	require.ErrorContains(t, p.Err(), "must not round to 0")
}

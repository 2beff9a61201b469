package gcode_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/export/gcode"
	take "seamrail/motion/controller/program"
	"seamrail/motion/controller/segment"
	"seamrail/motion/cue"
	"seamrail/motion/plan/sample"
	"seamrail/motion/spec/rig"
)

// setUp returns the lines before the take, comments left out.
func setUp(program string) (out []string) {
	for line := range strings.Lines(program) {
		line = strings.TrimSpace(line)
		switch {
		case strings.HasPrefix(line, "(round 1 ") || strings.HasPrefix(line, "(run-up"):
			return out
		case !strings.HasPrefix(line, "("):
			out = append(out, line)
		}
	}
	return out
}

// A program in a file waits at the start of the take and then counts in, as long
// as the click track does; one that is not to wait does the rest all the same.
func TestWaitsAtTheStart(t *testing.T) {
	tr := sample.Still(t)
	opt := gcode.Options{CountIn: 3, Segmenter: segment.EqualTime{}}
	program := text(t, tr, opt)
	require.Equal(t, []string{"G21 G90", "G94", "G1 X40.000 F2400", "M0", "G4 P3", "G93"}, setUp(program))
	require.Contains(t, strings.ReplaceAll(program, ")\n(.. ", " "),
		"(start: for a click track with a count-in of 3 s, start the track and press cycle start at the same moment)")

	opt.NoStop = true
	program = text(t, tr, opt)
	require.Equal(t, []string{"G21 G90", "G94", "G1 X40.000 F2400", "G4 P3", "G93"}, setUp(program))
	require.Contains(t, program, "(start: it does not wait at the start of the take: the rig goes on by itself)")
	require.NotContains(t, program, "cycle start")

	live := take.New(tr, segment.Take{Rest: []float64{40}})
	live.FinishAfter(1)
	for l, ok := live.Next(); ok; l, ok = live.Next() {
		require.NotEqual(t, take.Stop, l.Text, "what is sent live does not wait")
	}
}

// The motion begins with the last beat of the click track's count-in, and frame 0
// a run-up later: the program says the same times as the track has.
func TestTheCountInIsTheClickTracks(t *testing.T) {
	tr := sample.Through(t)
	track := cue.Sheet{Plan: tr.Plan()}.ForTake(2, 4)
	motion, frame := 0.0, track.Starts().Neg().Float()
	for b := range track.Beats() {
		if b.Cue == cue.CountIn && b.Left == 0 {
			motion = b.At.Float()
		}
	}
	program := text(t, tr, gcode.Options{Rounds: 2, CountIn: track.CountIn})
	require.Contains(t, program, "G4 P"+strconv.FormatFloat(motion, 'f', -1, 64)+"\n")
	require.Contains(t, program, "motion begins "+decimals(motion)+" s after cycle start, frame 0 is at "+decimals(frame)+" s")
}

func decimals(s float64) string { return strconv.FormatFloat(s, 'f', 3, 64) }

// The pause is as long as the count-in or longer by less than a grain, and never
// too short for buffers to fill.
func TestThePauseIsWholeGrains(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := take.Opening{CountIn: float64(rapid.IntRange(0, 60).Draw(t, "count-in"))}
		grain := rapid.SampledFrom([]float64{0, 0.01, 0.05, 0.3, 0.7, 1}).Draw(t, "grain")
		got := o.Pause(grain)
		require.GreaterOrEqual(t, got, max(o.CountIn, 0.5)-1e-9)
		require.Less(t, got, max(o.CountIn, 0.5)+grain+1e-9)
		if grain > 0 {
			require.InDelta(t, math.Round(got/grain), got/grain, 1e-9)
		}
	})
}

// What a controller's grain adds, and motors without current, are said.
func TestSaysWhatTheControllerDoes(t *testing.T) {
	r := sample.Bench(rig.InverseTime)
	r.Controller.DwellGrain, r.Controller.IdleDelay = 0.7, 0.025
	tr := sample.Make(t, 24, r, sample.Rail(t, "3-4-5", 2))
	program := strings.ReplaceAll(text(t, tr, gcode.Options{CountIn: 3, Segmenter: segment.EqualTime{}}), ")\n(.. ", " ")
	assert.Contains(t, program, "G4 P3.5\n")
	assert.Contains(t, program, "(start: motion begins 3.500 s after cycle start, frame 0 is at 3.500 s; "+
		"that is 0.500 s after the count-in, as it dwells in steps of 0.700 s)")
	assert.Contains(t, program, "(start: while it waits its motors have no current: see that nothing slides)")
}

// A board that passes over M0, as the one of software does, stands still between
// the way to the start and the motion for as long as the count-in.
func TestAVirtualBoardCountsIn(t *testing.T) {
	r := sample.Bench(rig.InverseTime)
	c := rig.Buffered.Defaults()
	c.Feed = rig.InverseTime
	r.Controller = c
	tr := sample.Make(t, 96, r, sample.Rail(t, "3-4-5", 100))
	for _, countIn := range []int64{1, 3, 7} {
		rec := play(t, text(t, tr, gcode.Options{CountIn: countIn, Rounds: 1, Segmenter: segment.EqualTime{}}), r).Record()
		still := 0.0
		for i := 1; i < rec.Len() && still == 0; i++ {
			if gap := rec.Span(i).Start - rec.Span(i-1).End; gap > 0.5 {
				still = gap
			}
		}
		require.InDelta(t, float64(countIn), still, countInClose)
	}
}

// countInClose is how near the pause must come, in s: what the wire and the
// reading of what it holds add, and what dwells of 50 ms are longer than that.
const countInClose = 5e-3

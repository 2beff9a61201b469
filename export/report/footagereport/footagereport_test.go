package footagereport_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/export/report/footagereport"
	"seamrail/motion/base/exact"
	"seamrail/motion/footage"
	"seamrail/motion/footage/against"
	"seamrail/motion/footage/alike"
	"seamrail/motion/footage/brightness"
	"seamrail/motion/footage/intact"
	"seamrail/motion/footage/pace"
	"seamrail/motion/footage/repeats"
	"seamrail/motion/footage/turn"
)

// take is a recording looked at from its frame 100 on.
func take() footagereport.Data {
	d := footagereport.Data{
		Course: footage.Course{About: footage.About{Name: "take.mov", Width: 1920, Height: 1080, Bits: 10, Rate: exact.New(24000, 1001), Start: "01:00:00:00"}},
		First:  100, Step: 3, Remarks: []string{"a remark"}, Cut: "it ends within frame 152",
	}
	for n := range 52 {
		p := footage.Same()
		p.X = float64(n)
		d.Course.Frames = append(d.Course.Frames, footage.Frame{FromFirst: p, Mean: 0.4})
	}
	d.Course.Frames[7].FromFirst = footage.Pose{Scale: 1}
	return d
}

func text(t *testing.T, d footagereport.Data) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, report.TextWithin(&b, d.Report(), false, 200))
	return b.String()
}

// laid is a take that is not its plan, with all that may be found.
func laid() *against.Result {
	sure := func(v float64) against.Number { return against.Number{Value: v, Sure: 0.01} }
	return &against.Result{
		Frame0: against.Frame0{Number: sure(17.4), Known: true}, Rate: sure(1e-4),
		Rounds: []against.Round{{Late: sure(0.5), MS: sure(20), Longer: sure(0.5), Known: true}, {Index: 1}},
		Axes: []against.Moved{
			{Name: "rail", PxPerUnit: sure(26.7), Backlash: sure(0.05), BacklashPx: sure(1.3), Told: true, Lost: []against.Lost{{Frame: 30, Units: sure(0.2), Px: sure(5)}}},
			{Name: "table"},
		},
		Blows: []against.Shock{{Frame: 12.5, Px: 3, Still: 0.4}},
		Drift: against.Creep{X: sure(1), Y: against.Number{Sure: math.Inf(1)}},
		Left:  against.Residual{RMS: 0.1, Worst: 0.4, Frame: 9},
		Verdict: against.Verdict{
			Kind: against.Differs, Text: "it is not the plan from frame 12 on", Bound: 0.25, From: 12.5,
			Causes: []against.Reason{{Text: "a blow to the table", Frame: 12.5, Px: 3}}, Unproven: []string{"what nobody knows"},
		},
	}
}

// Frames are told as the recording counts them, wherever it was looked at from.
func TestFramesAreThoseOfTheRecording(t *testing.T) {
	d := take()
	d.Plan, d.Units, d.Shot = laid(), []string{"mm", "deg"}, "A shot"
	got := text(t, d)
	for _, want := range []string{
		"NOT THE PLAN  it is not the plan from frame 12 on", "52 frames, 1920 × 1080 px, 10 bits", "a remark", "it ends within frame 152",
		"117.400 ± 0.010 in the recording", "at frame 109", "a blow to the table", "what nobody knows", "0.200 ± 0.010 mm from frame 130 on",
		"at frame 112.5: 3 px, still after 0.4 s", "1.000 ± 0.010 px a minute to the right, not known", "3 recorded px as one",
	} {
		assert.Contains(t, got, want)
	}
	f := d.Facts().(footagereport.Document)
	assert.Equal(t, "differs", f.Plan.Verdict)
	assert.InDelta(t, 117.4, *f.Plan.Frame0.Value, 1e-9)
	assert.InDelta(t, 112.5, *f.Plan.From, 1e-9)
	assert.InDelta(t, 130, *f.Plan.Axes[0].Lost[0].Frame, 1e-9)
	assert.Nil(t, f.Plan.DriftY.Sure, "what nothing tells is null")
	assert.Len(t, f.Frames, 52)
	assert.False(t, f.Frames[7].Known)
	assert.Nil(t, f.Frames[7].X)
	assert.InDelta(t, 3, *f.Frames[3].X, 1e-9)
}

// Each verdict has its own stamp, and without a plan the best loop has.
func TestHeadlines(t *testing.T) {
	d := take()
	d.Plan = &against.Result{Verdict: against.Verdict{Kind: against.IsPlan, Text: "so it is"}}
	assert.Contains(t, text(t, d), "\nTHE PLAN, BUT  so it is; but it ends before it should\n")
	d.Whole.Cuts = []int{3}
	assert.Contains(t, text(t, d), "but frames of it are amiss")
	d.Rates = &intact.Rates{}
	assert.Contains(t, text(t, d), "but its rate is none of the shot's")
	for kind, stamp := range map[against.Kind]string{against.IsPlan: "THE PLAN", against.Differs: "NOT THE PLAN", against.NotKnown: "NOT KNOWN WELL ENOUGH"} {
		d := take()
		d.Cut = ""
		d.Plan = &against.Result{Verdict: against.Verdict{Kind: kind, Text: "so it is"}}
		assert.Contains(t, text(t, d), "\n"+stamp+"  so it is\n")
	}
	d = take()
	assert.Contains(t, text(t, d), "NO LOOP")
	d.Range = alike.Range{Min: 20, Max: 40}
	d.Loops = &alike.Found{Pairs: 651, Bound: alike.Bound{Score: 0.01}, Runs: []alike.Run{{Seam: alike.Seam{Pair: alike.Pair{First: 5, Length: 30}}, From: 5, To: 9, Dissolve: 7, Fits: true}}}
	got := text(t, d)
	assert.Contains(t, got, "NO SEAM UNSEEN")
	assert.Contains(t, got, "dissolve over 7 frames")
	assert.Contains(t, got, "All 651 pairs of frames 20 to 40 apart")
	d.Loops.Runs[0].Unseen, d.Loops.Runs[0].Dissolve = true, 0
	got = text(t, d)
	assert.Contains(t, got, "LOOPS  frames 105 to 134, then 105 again: the seam is not seen")
	assert.Contains(t, got, "as good from any of 5 frames")
	l := d.Facts().(footagereport.Document).Loops
	require.Len(t, l, 1)
	assert.Equal(t, [3]int{105, 134, 30}, [3]int{l[0].From, l[0].To, l[0].Frames})
}

// Of a take of which most is unknown only that is told: numbers of the rest would be chance.
func TestOfWhatIsUnknownNothingIsTold(t *testing.T) {
	d := take()
	d.Plan, d.Units = laid(), []string{"mm", "deg"}
	d.Plan.Verdict = against.Verdict{Text: "NOT KNOWN WELL ENOUGH: much"}
	d.Plan.Compared.Unknown = 40
	got := text(t, d)
	assert.Contains(t, got, "NOT KNOWN WELL ENOUGH  of 40 of 52 frames nobody knows how they lie")
	assert.NotContains(t, got, "117.4")
	assert.NotContains(t, got, "lost steps")
}

// Where the picture has no one shift, how much it changes has the word.
func TestPaceHasTheWordWhereTheCourseHasNone(t *testing.T) {
	for kind, want := range map[pace.Kind][2]string{
		pace.ByTimes: {"BY THE PLAN'S TIMES  it goes so", "by its times"}, pace.Differs: {"NOT THE PLAN  it goes so", "differs"}, pace.NotKnown: {"NOT KNOWN WELL ENOUGH  nobody knows", "not known"},
	} {
		d := take()
		d.Plan = &against.Result{Verdict: against.Verdict{Text: "nobody knows"}}
		d.Pace = &pace.Result{Verdict: pace.Verdict{Kind: kind, Text: "it goes so", Unproven: []string{"how far it went"}}}
		got := text(t, d)
		assert.Contains(t, got, "\n"+want[0]+"\n")
		assert.Contains(t, got, "- it goes so")
		assert.Contains(t, got, "how far it went")
		assert.Contains(t, got, "count from the first that was looked at")
		assert.Equal(t, want[1], d.Facts().(footagereport.Document).Pace.Verdict)
	}
}

// The rate beside the shot's, what is amiss, the light, and what comes again.
func TestWhatTheFramesTell(t *testing.T) {
	d := take()
	d.Rates = &intact.Rates{Container: d.Course.About.Rate, Nearest: exact.Int(24), Kin: true, Drift: exact.New(1, 20)}
	d.Whole = intact.Found{
		Doubled: []intact.Doubled{{Frame: 3, Times: 1}}, Dropped: []intact.Dropped{{Frame: 9, Missing: 2}, {Frame: 20, Missing: 1, Filled: true}},
		Cuts: []int{30}, Black: []intact.Span{{From: 40, To: 41}}, White: []intact.Span{{From: 45, To: 45}}, CameraStill: true,
	}
	d.Light = &brightness.Light{
		Steps:   []brightness.Step{{Frame: 11, Stops: -0.5, Doubt: 0.1}},
		Flicker: []brightness.Flicker{{Frequency: 4.1, Stops: 0.2, Lamps: []brightness.Lamp{{Ripple: exact.Int(100), Fits: true}}}, {Frequency: 1, Stops: 0.1}},
	}
	d.Turn = &turn.Turn{Repeat: 24.5, RepeatDoubt: 0.01, Faces: 6, Told: true, Frames: 147, Period: 6.13, PeriodDoubt: 0.001}
	got := strings.Join(strings.Fields(text(t, d)), " ")
	for _, want := range []string{
		"23.976 (24000/1001) frames/s, and the shot has no such rate; the nearest is 24, from which it is 0.05 frames off", "as 24 from 23.976",
		"frame 103 shows the one before again", "before frame 109 2 frames are lost", "before frame 120 a frame is lost, and the frame before shown twice",
		"a cut before frame 130", "frames 140 to 141 are black", "frame 145 is white", "all frames lie on the first",
		"0.50 ± 0.10 stops darker from frame 111 on", "as a lamp that ripples at 100 Hz would", "what moves in the picture may",
		"after 24.500 ± 0.010 frames", "6 faces", `period = "6.13 s"`,
	} {
		assert.Contains(t, got, want)
	}
	f := d.Facts().(footagereport.Document)
	assert.Equal(t, []int{103}, f.Amiss.Doubled)
	assert.Equal(t, []footagereport.Gap{{Before: 109, Missing: 2}, {Before: 120, Missing: 1}}, f.Amiss.Dropped)
	assert.Equal(t, []string{"100"}, f.Light.Flicker[0].Lamps)
	assert.InDelta(t, 6.13, *f.Again.Turn, 1e-9)
	d.Turn.Told = false
	assert.Contains(t, text(t, d), "--faces says")
	assert.Nil(t, d.Facts().(footagereport.Document).Again.Turn)
	d.Light = nil
	assert.NotContains(t, text(t, d), "THE LIGHT")
}

// How it goes on from its last frame to its first is told both ways, and a frame that is there
// twice with what to do.
func TestAllOfIt(t *testing.T) {
	d := take()
	d.Cut = ""
	d.AsWhole = &alike.Whole{Jump: 0.001, Usual: 0.003, Bound: 0.004}
	assert.Contains(t, text(t, d), "LOOPS  as it is: from frame 151 to frame 100 it goes on as it does anyway")
	assert.True(t, d.Facts().(footagereport.Document).AsWhole.Unseen)
	d.AsWhole = &alike.Whole{Jump: 0.02, Usual: 0.003, Bound: 0.004, Light: -0.01}
	got := text(t, d)
	assert.Contains(t, got, "NO LOOP")
	assert.Contains(t, got, "from frame 151 to frame 100 the picture is 2.00 % off where it leads; up to 0.40 % is usual in this")
	assert.Contains(t, got, "take: seen\n")
	assert.Contains(t, got, "its light jumps by -1.0 % of white")
	d.AsWhole.Twice = true
	assert.Contains(t, text(t, d), "the last frame shows the first once more, and without it nothing would be")
}

// What swings goes to the rig file under the axis that moved the picture, or why not is said.
func TestAShakeIsKept(t *testing.T) {
	d := take()
	d.Plan, d.Units = laid(), []string{"mm", "deg"}
	s := &against.Shake{Axis: -1}
	s.Spring.Frequency, s.Spring.Damping, s.FrequencySure = 9.6, 0.04, 0.1
	d.Plan.Shake = s
	got := text(t, d)
	assert.Contains(t, got, "[axis.rail.shake]")
	assert.Contains(t, got, `frequency = "9.6 Hz"`)
	assert.Contains(t, got, "Which axis shakes, a picture does not tell")
	assert.Contains(t, d.Facts().(footagereport.Document).Plan.Shake.Lines, `damping = "4 %"`)
	d.Plan.Axes[1].Told, s.Axis = true, 1
	assert.Contains(t, text(t, d), "[axis.table.shake]", "along which it is")
	s.FrequencySure = 9
	got = text(t, d)
	assert.NotContains(t, got, "[axis.rail.shake]")
	assert.Contains(t, got, "Not for the rig file: a swing of 9.6 Hz, known to 9 Hz")
	assert.Empty(t, d.Facts().(footagereport.Document).Plan.Shake.Lines)
}

// By how much turns may differ and not be told is said, or that there are no two.
func TestWhatATurnMayHide(t *testing.T) {
	d := take()
	d.Turn = &turn.Turn{Repeat: 24.5, Faces: 6, Told: true, Frames: 147, Period: 6.13, Hidden: 0.034}
	d.Turn.Turns, d.Turn.Uneven = 2.5, 0.31
	assert.Contains(t, text(t, d), "within 0.31 degrees, root mean square, of a steady turn over 2.5 turns")
	assert.InDelta(t, 0.31, *d.Facts().(footagereport.Document).Again.Uneven, 1e-9)
	assert.Contains(t, text(t, d), "Turns that differ by less than 3.4 % of what any two frames differ by would not be told")
	assert.InDelta(t, 0.034, *d.Facts().(footagereport.Document).Again.Hidden, 1e-9)
	d.Turn.Hidden = 1
	assert.Contains(t, text(t, d), "The footage has no two such turns")
	d.Turn.Hidden = 0
	assert.NotContains(t, text(t, d), "no two such turns")
}

// A picture that repeats itself is said to, and which way.
func TestAPictureThatRepeatsItself(t *testing.T) {
	for way, again := range map[string]repeats.Repeat{"across": {X: 30, Y: 1}, "down": {X: -1, Y: 30}, "aslant": {X: 21, Y: -21}} {
		d := take()
		d.Repeats = &again
		assert.Regexp(t, `repeats itself by some (30|29\.7) px `+way, text(t, d))
		assert.InDelta(t, again.X, *d.Facts().(footagereport.Document).Amiss.Repeats.X, 1e-9)
	}
	assert.Nil(t, take().Facts().(footagereport.Document).Amiss.Repeats)
}

// A flicker is held to the one that the plan foretold, whichever of the two there is.
func TestFlickerBesideWhatWasForetold(t *testing.T) {
	lamp := brightness.Lamp{Ripple: exact.Int(100), Fits: true}
	at := func(hz float64) []brightness.Flicker {
		return []brightness.Flicker{{Frequency: hz, FrequencyDoubt: 0.01, Stops: 0.05, Percent: 3, Lamps: []brightness.Lamp{lamp}}}
	}
	for name, c := range map[string]struct {
		foretold footagereport.Foretold
		seen     []brightness.Flicker
		want     string
		is       bool
	}{
		"as foretold":    {footagereport.Foretold{Beat: 20, Depth: 0.04}, at(20.1), "4 % at 20 Hz as it is filmed, on what faces the lamp: so it is, by 3 %", true},
		"another":        {footagereport.Foretold{Beat: 20, Depth: 0.04}, at(17), "not what was filmed; a lamp in the shot file ripples otherwise", false},
		"none foretold":  {footagereport.Foretold{}, at(17), "that lamps burn steadily: not what was filmed", false},
		"none filmed":    {footagereport.Foretold{Beat: 20, Depth: 0.04}, nil, "none was filmed: a lamp ripples less", false},
		"none of either": {footagereport.Foretold{}, nil, "that lamps burn steadily: none was filmed", false},
		"in step":        {footagereport.Foretold{Depth: 0.04}, nil, "it keeps step with the frames, and no flicker was filmed", false},
	} {
		t.Run(name, func(t *testing.T) {
			d := take()
			d.Light, d.Foretold = &brightness.Light{Flicker: c.seen}, &c.foretold
			assert.Contains(t, strings.Join(strings.Fields(text(t, d)), " ")+"\n", strings.Join(strings.Fields(c.want), " "))
			assert.Equal(t, c.is, d.Facts().(footagereport.Document).Light.Foretold.Seen)
		})
	}
}

// A value is told to the place of its uncertainty (JCGM 100:2008, 7.2.6, whose own example is
// 100.021 47 g with 0.35 mg).
func TestAValueIsToldAsFarAsItIsSure(t *testing.T) {
	for want, n := range map[string][2]float64{
		"100.02147 ± 0.00035": {100.0214711, 0.00035}, "0.0021 ± 0.0026": {0.00205, 0.0026}, "-530 ± 210": {-533.2, 210},
		"5.92600 ± 0.00041": {5.926, 0.00041}, "117.400 ± 0.010": {117.4, 0.01}, "-4 ± 30": {-4, 30}, "1.04 ± 0.10": {1.04, 0.0996},
	} {
		d := take()
		d.First, d.Plan, d.Units = 0, laid(), []string{"mm", "deg"}
		d.Plan.Frame0.Number = against.Number{Value: n[0], Sure: n[1]}
		assert.Contains(t, text(t, d), want+" in the recording")
	}
}

// A take that is the plan but for frames that the recording lacks says so first.
func TestARecordingThatLacksFrames(t *testing.T) {
	d := take()
	d.Plan = &against.Result{Verdict: against.Verdict{Kind: against.Differs, Mended: true, Text: "a frame is missing"}}
	assert.Contains(t, text(t, d), "THE PLAN, BUT  a frame is missing")
	f := d.Facts().(footagereport.Document)
	assert.Equal(t, "THE PLAN, BUT", f.Headline)
	assert.True(t, f.Plan.Mended)
	assert.Equal(t, "differs", f.Plan.Verdict)
}

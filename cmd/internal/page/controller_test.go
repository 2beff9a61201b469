package page

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/base/fault"
	"seamrail/motion/controller/ontime"
	"seamrail/motion/plan/judge"
)

var ready = judge.Headline{Stamp: "READY", Words: "The loop closes."}

func TestAControllerThatFollows(t *testing.T) {
	got := followed(ready, nil, &ontime.Prediction{Exact: true, Assumed: []ontime.Assumption{{Key: "idle-delay", Value: "none", Cost: "late with 25 ms"}}}, nil, nil)
	require.Equal(t, Follows{Headline: Headline{Level: unknown, Ready: true, Stamp: "READY", Words: "The loop closes."}, Verdicts: []Verdict{
		{Level: unknown, Name: "idle-delay", Plain: "idle-delay", Text: "assumed none; late with 25 ms", Fits: []Fit{}},
		{Level: good, Name: "controller", Plain: "the controller", Text: "plays a table of steps: each step on its tick, no planning of its own", Fits: []Fit{}},
	}}, got)
}

func TestAControllerThatCannotFollow(t *testing.T) {
	got := onController(ontime.Prediction{Rounds: 1, Late: 0.5, Faults: fault.List{{Axis: "rail", Quantity: "speed", Value: "9 mm/s", Bound: "at most 5 mm/s", Fit: "set $110"}}}, nil)
	require.Equal(t, []Verdict{{Level: bad, bars: true, Name: "controller", Axis: "rail", Text: "speed 9 mm/s at most 5 mm/s", Fits: []Fit{{"set $110", []Set{}, true}}}}, got)
}

// What must not be run anyway is not looked at.
func TestNoControllerIsAskedInVain(t *testing.T) {
	got := followed(ready, []Verdict{{Level: good}}, nil, nil, nil)
	require.Empty(t, got.Verdicts)
	require.NotNil(t, got.Verdicts, "a list, in JSON")
}

// A take of fewer rounds is a value of the file; what a board is set to is for a hand.
func TestWhatTheControllerWants(t *testing.T) {
	edits := []fault.Edit{{Path: "take.rounds", Text: "4"}}
	got := onController(ontime.Prediction{Rounds: 8, Late: 0.5, Faults: fault.List{{Quantity: "rounds", Fit: "takes of 4 rounds would do", Edits: edits}}}, nil)
	require.Equal(t, []Fit{{"takes of 4 rounds would do", []Set{{"take.rounds", "4"}}, false}}, got[0].Fits)
}

// The headline tells the worst of all verdicts, with the first of its fits that can be made
// on the page, and where none can, with the first.
func TestTheHeadlineTellsTheWorst(t *testing.T) {
	hand, made := Fit{"by hand", []Set{}, true}, Fit{"ISO 800", []Set{{"camera.iso", "800"}}, false}
	list := func(levels ...level) []Verdict {
		return ranked(listOf(levels, func(l level) Verdict { return Verdict{Level: l, Name: string(l), Fits: []Fit{hand, made}} }), judge.Headline{})
	}
	for _, level := range worstFirst {
		require.Equal(t, level, headlineOf(ready, list(good, level, good)).Level)
	}
	require.Equal(t, bad, headlineOf(ready, list(unknown, fair, bad)).Level)
	require.Equal(t, fair, headlineOf(ready, list(unknown, fair)).Level)
	require.Nil(t, headlineOf(ready, list(unknown, good)).Worst)
	require.Equal(t, &made, headlineOf(ready, list(good, bad)).Worst.Fit)
	require.Equal(t, &hand, headlineOf(ready, []Verdict{{Level: bad, Fits: []Fit{hand, hand}}}).Worst.Fit)
	require.Nil(t, headlineOf(ready, []Verdict{{Level: bad}}).Worst.Fit)
	none := func(Fit) bool { return false }
	require.Equal(t, &Fit{made.Text + unfollowed, []Set{}, true}, headlineBy(ready, []Verdict{{Level: bad, Fits: []Fit{made}}}, none).Worst.Fit, "it is said, and not offered first")
	require.Equal(t, "must not be driven", headlineOf(ready, ranked([]Verdict{{Level: bad, Name: "first"}, {Level: bad, bars: true, Name: "must not be driven"}}, ready)).Worst.Name)
}

// While the controller is being looked at there is a verdict that says so, and nothing is
// good.
func TestNothingIsGoodWhileItIsLookedAt(t *testing.T) {
	got := ranked([]Verdict{{Level: good, Name: "limits"}}, judge.Headline{Pending: true, Unknown: []string{"torque"}})
	require.Equal(t, []string{"torque", "controller", "limits"}, listOf(got, func(v Verdict) string { return v.Name }))
	require.True(t, got[1].Pending)
	require.Equal(t, unknown, headlineOf(ready, got).Level)
}

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
	got := followed(ready, &ontime.Prediction{Exact: true, Assumed: []ontime.Assumption{{Key: "idle-delay", Value: "none", Cost: "late with 25 ms"}}})
	require.Equal(t, Follows{Headline: Headline{Level: good, Ready: true, Stamp: "READY", Words: "The loop closes."}, Verdicts: []Verdict{
		{Level: good, Name: "controller", Text: "plays a table of steps: each step on its tick, no planning of its own", Fits: []Fit{}},
		{Level: unknown, Name: "idle-delay", Text: "assumed none; late with 25 ms", Fits: []Fit{}},
	}}, got)
}

func TestAControllerThatCannotFollow(t *testing.T) {
	got := onController(ontime.Prediction{Rounds: 1, Late: 0.5, Faults: fault.List{{Axis: "rail", Quantity: "speed", Value: "9 mm/s", Bound: "at most 5 mm/s", Fit: "set $110"}}})
	require.Equal(t, []Verdict{{Level: bad, Name: "controller", Axis: "rail", Text: "speed 9 mm/s at most 5 mm/s", Fits: []Fit{{"set $110", []Set{}}}}}, got)
}

// What must not be run anyway is not looked at.
func TestNoControllerIsAskedInVain(t *testing.T) {
	got := followed(ready, nil)
	require.Empty(t, got.Verdicts)
	require.NotNil(t, got.Verdicts, "a list, in JSON")
}

// The mark of the headline is no better than what is known: nothing is good while
// the controller is being worked out, and what is not known is not well.
func TestTheMarkOfTheHeadline(t *testing.T) {
	for _, c := range []struct {
		h       judge.Headline
		pending bool
		want    string
	}{
		{judge.Headline{}, false, good},
		{judge.Headline{}, true, unknown},
		{judge.Headline{Tone: judge.Minded, Unknown: []string{"torque"}}, false, unknown},
		{judge.Headline{Tone: judge.Minded, Fails: []string{"focus"}, Unknown: []string{"torque"}}, false, fair},
		{judge.Headline{Tone: judge.Barred, Fails: []string{"focus"}}, true, bad},
	} {
		require.Equal(t, c.want, headlineOf(c.h, c.pending).Level, "%+v", c)
	}
}

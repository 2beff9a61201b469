package page

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/exact"
	"seamrail/motion/fault"
	"seamrail/motion/ontime"
	"seamrail/motion/rig"
	"seamrail/motion/sample"
	"seamrail/motion/trajectory"
)

// foretold is a plan of which this is expected.
type foretold struct {
	fakePlan
	tr     *trajectory.Trajectory
	x      *ontime.Prediction
	unable error
}

func (p foretold) Expected() *ontime.Prediction       { return p.x }
func (p foretold) Trajectory() *trajectory.Trajectory { return p.tr }
func (p foretold) Trouble() error                     { return nil }
func (p foretold) Unable() error                      { return p.unable }

func TestAControllerThatFollows(t *testing.T) {
	tr := sample.With(t, rig.InverseTime)
	got := followed(foretold{tr: tr, x: &ontime.Prediction{Exact: true, Assumed: []ontime.Assumption{{Key: "idle-delay", Value: "none", Cost: "late with 25 ms"}}}})
	require.Equal(t, Follows{Ready: true, Level: good, Words: "The loop closes." + readyWords, Verdicts: []Verdict{
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
	got := followed(foretold{tr: sample.With(t, rig.InverseTime), unable: errors.New("the plan breaks 1 limit of the rig")})
	require.Equal(t, bad, got.Level)
	require.Equal(t, "The plan breaks 1 limit of the rig.", got.Words)
	require.Empty(t, got.Verdicts)
	require.NotNil(t, got.Verdicts, "a list, in JSON")
}

// Nothing is green whose words say that it is not known, and a loop that does not
// close on its stand is not said to close.
func TestTheMarkIsThatOfTheWords(t *testing.T) {
	tr := sample.With(t, rig.InverseTime)
	var v View
	v.state(foretold{tr: tr}, false)
	require.Equal(t, unknown, v.Level)
	require.Contains(t, v.Words, "is being worked out")
	v.state(foretold{tr: tr}, true)
	require.Equal(t, unknown, v.Level, "a quick plan has looked at neither motors nor controller")

	got := followed(foretold{tr: tr}) // it could not be cut, and nothing keeps it from being driven
	require.Equal(t, unknown, got.Level)
	require.Contains(t, got.Words, "is not known")

	open := sample.Display(t, 144, exact.Int(25), 4)
	got = followed(foretold{tr: open, x: &ontime.Prediction{Exact: true}})
	require.Equal(t, fair, got.Level)
	require.Contains(t, got.Words, "not on display; there it jumps at every repeat")
	require.NotContains(t, got.Words, "The loop closes.")
	got = followed(foretold{tr: sample.Display(t, 144, exact.Int(24), 4), x: &ontime.Prediction{Exact: true}})
	require.Equal(t, good, got.Level)
}

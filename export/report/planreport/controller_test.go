package planreport_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/export/report/planreport"
	"seamrail/motion/base/fault"
	"seamrail/motion/controller/ontime"
)

// expected is what a controller might make of a take.
func expected(late float64) *ontime.Prediction {
	return &ontime.Prediction{
		Rounds: 3, Blocks: 57, Longest: 0.02, Planned: 4, Executed: 4 + 3*late,
		RoundPlanned: 1.2, RoundExecuted: 1.2 + late, RoundLate: late, Late: 3 * late, Within: ontime.PromisedLate,
		Axes: []ontime.Deviation{{Axis: "rail", Unit: "mm", Worst: -0.0204, Frame: 41, Seconds: 0.34, Wanted: 0.05}},
	}
}

func TestTheControllerIsReported(t *testing.T) {
	tr, v := load(t, "reveal")
	var text, doc bytes.Buffer
	opt := planreport.Data{Controller: expected(0.00001)}
	require.NoError(t, report.Text(&text, judged(tr, v, opt).Report(), false))
	assert.Contains(t, text.String(), "ON THIS CONTROLLER\n  expected      1.2000 s for 1.2000 s each round, on time\n")
	assert.Contains(t, text.String(), "rail 0.020 mm off at the worst, frame 41\n")
	assert.Contains(t, text.String(), "\nREADY ")
	require.NoError(t, report.JSON(&doc, judged(tr, v, opt).Facts()))
	var d planreport.Document
	require.NoError(t, json.Unmarshal(doc.Bytes(), &d))
	require.NotNil(t, d.Controller)
	assert.True(t, d.Controller.Follows && d.Verdict.Ready)
	assert.InDelta(t, -0.0204, d.Controller.Axes[0].Worst, 1e-9)
	assert.InDelta(t, 1e-5, d.Controller.RoundLate, 1e-9)
}

// A controller that cannot follow makes a plan not ready, and says why.
func TestAControllerThatCannotFollow(t *testing.T) {
	tr, v := load(t, "reveal")
	x := expected(0.02)
	x.Faults = fault.List{{Axis: "rail", Quantity: "acceleration setting of the controller", Value: "300 mm/s2",
		Bound: "is too low for this move", Fit: "450 mm/s2 would do"}}
	var text, doc bytes.Buffer
	require.NoError(t, report.Text(&text, judged(tr, v, planreport.Data{Controller: x}).Report(), false))
	assert.Contains(t, text.String(), "NOT READY  The move is within the limits, but the controller cannot follow it.")
	assert.Contains(t, text.String(), "20.0 ms late\n")
	assert.Contains(t, text.String(), "x axis rail: acceleration setting of the controller 300 mm/s2 is too low for")
	require.NoError(t, report.JSON(&doc, judged(tr, v, planreport.Data{Controller: x}).Facts()))
	var d planreport.Document
	require.NoError(t, json.Unmarshal(doc.Bytes(), &d))
	assert.False(t, d.Controller.Follows || d.Verdict.Ready)
	assert.Len(t, d.Controller.Reasons, 1)
}

// Without a prediction the report says nothing of the controller.
func TestNoPredictionNoWords(t *testing.T) {
	tr, v := load(t, "reveal")
	var text, doc bytes.Buffer
	require.NoError(t, report.Text(&text, judged(tr, v, planreport.Data{}).Report(), false))
	require.NoError(t, report.JSON(&doc, judged(tr, v, planreport.Data{}).Facts()))
	assert.NotContains(t, text.String(), "CONTROLLER")
	assert.NotContains(t, doc.String(), `"controller"`)
}

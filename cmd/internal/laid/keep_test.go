package laid

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/export/drive/takelog"
	"seamrail/export/report/footagereport"
	"seamrail/motion/base/exact"
	"seamrail/motion/edit/filmed"
	"seamrail/motion/footage/against"
)

// What was delivered of a take is none: it is not kept, and drawn by the timeline's frames.
func TestATimelinesFrames(t *testing.T) {
	d := footagereport.Data{Plan: &against.Result{Timeline: true}}
	_, _, err := Kept(d, nil, "a.takes.jsonl", filmed.Film{File: "cut.mov"}, takelog.Take{Number: 1}, "number", Said{})
	assert.ErrorContains(t, err, "cut.mov has the frames of the timeline")
	p := against.Plan{Loop: 720, RunOut: 120, Rounds: 1, CaptureRate: exact.Int(120), PerScreen: exact.Int(5),
		Axes: []against.Axis{{Name: "rail", At: func(s float64) float64 { return s }}}}
	assert.EqualValues(t, 144, Counted(d, p).Loop)
	d.Plan.Timeline = false
	assert.EqualValues(t, 720, Counted(d, p).Loop)
	assert.EqualValues(t, 720, Counted(footagereport.Data{}, p).Loop)
}

package drive_test

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/motion/controller/program"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// posed runs what is asked for one after the other on a rig that waits, and leaves.
func posed(t *testing.T, tr *trajectory.Trajectory, change func(m *machine), asks ...drive.Request) (*machine, drive.Result) {
	m := onVirtualWith(t, tr, 1, nil, nil)
	m.options.Takes = 0
	if change != nil {
		change(m)
	}
	for i, r := range append(asks, drive.Request{Kind: drive.Quit}) {
		m.w.script = append(m.w.script, cue{drive.Ready, time.Duration(1+20*i) * time.Second, r})
	}
	return m, m.run()
}

// said tells whether the operator was told something with these words.
func (m *machine) said(words string) bool {
	return slices.ContainsFunc(m.w.said, func(s string) bool { return strings.Contains(s, words) })
}

// TestAFrameIsShownOnTheRig: each kind goes to where the plan has every axis at that frame,
// and says which it shows; a frame that is not in the loop moves nothing.
func TestAFrameIsShownOnTheRig(t *testing.T) {
	for _, k := range rig.DrivenKinds() {
		tr := loop(t, k)
		tr.Plan().Rig.Controller.Greeting = ""
		last := float64(tr.Captured() - 1)
		for _, frame := range []float64{0, last / 3, last} {
			m, r := posed(t, tr, nil, drive.Request{Kind: drive.Pose, Frame: frame})
			require.NoError(t, r.Err(), "%v frame %g: %v", k, frame, m.w.said)
			assert.True(t, r.Known)
			assert.True(t, m.said("of the loop, "), "%v: %v", k, m.w.said)
			for i := range tr.AxisCount() {
				want := tr.TakeState(i, 1, frame/tr.Clock().Capture.Float()).Pos
				assert.InDelta(t, want, r.At[i], 0.051, "%v frame %g axis %d", k, frame, i)
			}
		}
		for _, frame := range []float64{-1, last + 1, math.NaN()} {
			m, r := posed(t, tr, nil, drive.Request{Kind: drive.Pose, Frame: frame})
			require.NoError(t, r.Err())
			assert.True(t, m.said("is not in the loop"), "%v frame %g: %v", k, frame, m.w.said)
			assert.Zero(t, m.rig.Record().Len(), "nothing has moved")
		}
	}
}

// TestAWayThatMustNotBeGone: a pose is gone to in the order that the way has, with its
// words; where it has none, nothing moves and it is said why.
func TestAWayThatMustNotBeGone(t *testing.T) {
	tr := loop(t, rig.Buffered)
	tr.Plan().Rig.Controller.Greeting = ""
	to := drive.Request{Kind: drive.Pose, Frame: 7}
	m, r := posed(t, tr, func(m *machine) {
		m.options.Way = func(from, to []float64) ([]int, string, error) { return []int{1, 0}, "the table first", nil }
	}, to)
	require.NoError(t, r.Err())
	assert.True(t, m.said("the table first"))
	m, r = posed(t, tr, func(m *machine) {
		m.options.Way = func(from, to []float64) ([]int, string, error) { return nil, "", assert.AnError }
	}, to)
	require.NoError(t, r.Err())
	assert.True(t, m.said("it does not go to frame 7: "+assert.AnError.Error()))
	assert.Zero(t, m.rig.Record().Len())
}

// TestAWalkIsNoTake: the plan is gone through and the rig is back at its start; the walk of
// nothing is none.
func TestAWalkIsNoTake(t *testing.T) {
	for _, k := range rig.DrivenKinds() {
		tr := smooth(t, k, 96)
		w := &drive.Walk{Trajectory: tr, Words: "four times as slowly"}
		if !k.PlaysSteps() {
			take := chosen(t, tr, 1)
			w.Source = func() drive.Source { return program.New(tr, take) }
		}
		m, r := posed(t, tr, nil, drive.Request{Kind: drive.WalkThrough}, drive.Request{Kind: drive.WalkThrough, Walk: w})
		require.NoError(t, r.Err(), "%v: %v", k, m.w.said)
		assert.True(t, m.said("Walking through the plan, four times as slowly."), "%v", k)
		assert.Zero(t, r.Takes, "%v", k)
		assert.True(t, r.Known)
		assert.InDelta(t, tr.TakeState(0, 1, 0).Pos, r.At[0], 0.02, "%v", k)
		assert.Positive(t, m.rig.Record().Len(), "%v", k)
	}
}

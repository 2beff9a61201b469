package drive_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/motion/spec/rig"
)

// reporting are the kinds that tell where they are.
var reporting = []rig.ControllerKind{rig.Buffered, rig.StepPlayer}

// sightingSlack is what a place may be off at the instant that is told of it, mm: a step of
// an eightieth, and what the model foretells of blocks.
const sightingSlack = 1.0/80 + 0.01

// Where the rig is and where the plan has it are of one instant: at 86 mm/s a tenth of a
// second would be 8 mm.
func TestPlaceAndPlanAreOfOneInstant(t *testing.T) {
	for _, kind := range reporting {
		m := onVirtual(t, smooth(t, kind, 96), 3, nil)
		fast, told := 0.0, 0
		m.w.watch = func() {
			p := m.w.progress[len(m.w.progress)-1]
			s := p.Seen
			if !s.Reported || s.Off == nil {
				return
			}
			told++
			assert.InDelta(t, 0, s.Off[0], sightingSlack, "%v", s)
			assert.InDelta(t, s.At[0]-s.Plan[0], s.Off[0], 1e-9, "the page subtracts nothing")
			now := m.options.Trajectory.TakeState(0, 3, p.Elapsed.Seconds()).Pos
			fast = math.Max(fast, math.Abs(now-s.At[0]))
		}
		require.NoError(t, m.run().Err())
		require.Greater(t, told, 50, kind)
		if kind == rig.Buffered { // which is asked ten times a second
			require.Greater(t, fast, 2.0, "the plan of now is elsewhere: mixed, it would be that far off")
		}
		t.Logf("%v: %d told, mixed %.1f mm", kind, told, fast)
	}
}

// A rig that is held is seen where it stands, on its path, at rest and while it slows down.
func TestAHeldRigIsSeenWhereItStands(t *testing.T) {
	for _, kind := range reporting {
		for _, after := range []time.Duration{1500, 2300, 2900, 3400, 4100} {
			m := onVirtual(t, smooth(t, kind, 96), 3, nil)
			m.w.script = []cue{{drive.Running, after * time.Millisecond, drive.Request{Kind: drive.Stop}}, {drive.Resting, 3 * time.Second, drive.Request{Kind: drive.Resume}}}
			rests := 0
			m.w.watch = func() {
				p := m.w.progress[len(m.w.progress)-1]
				if p.State != drive.Resting {
					return
				}
				rests++
				require.True(t, p.Seen.Reported)
				assert.InDelta(t, m.where(0, m.rig.Now().Seconds()), p.Seen.At[0], 0.02, "where it stands")
				assert.InDelta(t, p.Seen.Plan[0], p.Seen.At[0], sightingSlack, "on the path")
				assert.Equal(t, p.Frame, int64(p.Seen.Frame), "the frame that is told is the one of that place")
				assert.Equal(t, p.Position, p.Seen.At)
			}
			require.NoError(t, m.run().Err())
			assert.Equal(t, 1, rests, "%v after %v", kind, after)
		}
	}
}

// What reports show of a take that went on after a hold is as true as of one that did not:
// the time in which it slowed down and sped up is no deviation.
func TestTheWorstOfAResumedTake(t *testing.T) {
	for _, kind := range reporting {
		for _, after := range []time.Duration{800, 1500, 2300, 2900, 3400, 4100} {
			m := onVirtual(t, smooth(t, kind, 96), 3, nil)
			m.w.script = []cue{
				{drive.Running, after * time.Millisecond, drive.Request{Kind: drive.Stop}}, {drive.Resting, 3 * time.Second, drive.Request{Kind: drive.Resume}},
				{drive.Running, 2 * time.Second, drive.Request{Kind: drive.Stop}}, {drive.Resting, time.Second, drive.Request{Kind: drive.Resume}},
			}
			require.NoError(t, m.run().Err())
			p := m.w.passes[0]
			require.True(t, p.Held)
			assert.InDelta(t, 0, p.Worst[0], sightingSlack, "%v after %v", kind, after)
			assert.InDelta(t, p.Worst[0], m.read().Takes[0].End.Worst[0].Value, 1e-9, "and so the log has it")
		}
	}
}
